def forecast(station, day):
    """Forecast the tide.

    It is high.
    """
    return table(station, day)
