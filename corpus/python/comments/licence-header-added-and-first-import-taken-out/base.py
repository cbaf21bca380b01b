import os
import sys
from board import Row


def draw(rows):
    return [Row(r) for r in rows]
