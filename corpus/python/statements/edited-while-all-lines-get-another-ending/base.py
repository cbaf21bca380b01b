import os


def level(station):
    return fetch(station, "chart")


def show(station):
    """Show a station.

    On the board.
    """
    board.show(station)
