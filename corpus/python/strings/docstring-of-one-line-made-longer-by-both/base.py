def forecast(station, day):
    """Forecast the tide."""
    return table(station, day)
