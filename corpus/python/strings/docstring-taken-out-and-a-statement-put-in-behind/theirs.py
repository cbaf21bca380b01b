def forecast(station, level):
    """Old."""
    check(station)
    start(station)
    return level
