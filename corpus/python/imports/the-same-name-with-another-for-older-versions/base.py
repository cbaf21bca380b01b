from board import Row

import sys


def draw(rows):
    return [Row(r) for r in rows]
