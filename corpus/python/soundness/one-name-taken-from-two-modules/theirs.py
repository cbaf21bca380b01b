import os


def refresh(board):
    board.draw(
        os.name,
        unit="m",
        first=level(),
    )


import sys
from stations import level


def quit():
    sys.exit()
