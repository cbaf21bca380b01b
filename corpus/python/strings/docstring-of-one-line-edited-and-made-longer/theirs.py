def forecast(station, day):
    """Forecast the tide at a station."""
    return table(station, day)
