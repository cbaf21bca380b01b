from .feed import board
from .feed import request


def draw(rows):
    return board(rows)
