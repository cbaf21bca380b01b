from board import Row

from newtables import Table
import sys


def draw(rows):
    return [Row(r) for r in rows]
