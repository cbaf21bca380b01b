from board import Row

import cookies

try:
    from tables import Table
except ImportError:
    from oldtables import Table
import sys


def draw(rows):
    return [Row(r) for r in rows]
