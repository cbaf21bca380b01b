from board import Row

<<<<<<< ours
from newtables import Table
=======
try:
    from tables import Table
except ImportError:
    from oldtables import Table
>>>>>>> theirs
import sys


def draw(rows):
    return [Row(r) for r in rows]
