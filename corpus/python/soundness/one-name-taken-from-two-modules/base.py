import os


def refresh(board):
    board.draw(
        os.name,
        unit="m",
    )


import sys


def quit():
    sys.exit()
