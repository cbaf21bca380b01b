from board import Row

import cookies
import sys


def draw(rows):
    return [Row(r) for r in rows]
