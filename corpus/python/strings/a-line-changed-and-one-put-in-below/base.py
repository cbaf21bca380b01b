def fetch(station):
    """Reads the tides of a station.

    The levels are in metres above chart datum.
    """
    return read(station)
