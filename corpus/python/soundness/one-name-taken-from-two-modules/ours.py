import os
from tides import level


def refresh(board):
    board.draw(
        os.name,
        unit="m",
        limit=level(),
    )


import sys


def quit():
    sys.exit()
