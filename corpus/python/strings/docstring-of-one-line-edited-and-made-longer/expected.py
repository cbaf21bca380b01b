def forecast(station, day):
    """Forecast the tide at a station.

    Returns a table.
    """
    return table(station, day)
