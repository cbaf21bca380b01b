from board import Row

try:
    from tables import Table
except ImportError:
    from oldtables import Table
import sys


def draw(rows):
    return [Row(r) for r in rows]
