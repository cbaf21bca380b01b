def forecast(station, day, unit):
    return table(station, day, unit)
