import os


def level(station):
    return fetch(station, "chart", unit="m")


def show(station):
    """Show a station.

    On the board on the quay.
    """
    board.show(station)
