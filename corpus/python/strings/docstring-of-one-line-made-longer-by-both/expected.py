def forecast(station, day):
    """Forecast the tide.

<<<<<<< ours
    Returns a table.
=======
    It is high.
>>>>>>> theirs
    """
    return table(station, day)
