def forecast(station, day):
    """Forecast the tide.

    Returns a table.
    """
    return table(station, day)
