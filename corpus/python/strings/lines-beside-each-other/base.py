def fetch(station):
    """Reads the tides of a station.

    The levels are in metres above chart datum.
    The times are local to the station.
    """
    return read(station)
