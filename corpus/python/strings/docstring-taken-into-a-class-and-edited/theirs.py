import tide


def refresh(board, station):
    """Refresh a board.

    Takes the newest levels of a station.
    Never blocks.

    Stops after a while:
        see ``tide.read``.
    """
    levels = tide.read(station)
    board.show(levels, station)
