def fetch(station):
    """Reads the tides of a station.

    The levels are in metres above chart datum.
    Heights may be missing.
    """
    return read(station)
