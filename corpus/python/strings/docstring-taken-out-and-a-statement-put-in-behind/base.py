def forecast(station, level):
    """Old."""
    start(station)
    return level
