import random
import sys
__all__ = [
    "draw",
    "refresh",
]
from board import Row


def draw(rows):
    return [Row(r) for r in rows]
