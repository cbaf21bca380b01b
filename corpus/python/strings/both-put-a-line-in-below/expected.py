def fetch(station):
    """Reads the tides of a station.

    The levels are in metres above chart datum.
<<<<<<< ours
    Heights may be missing.
=======
    The times are UTC.
>>>>>>> theirs
    """
    return read(station)
