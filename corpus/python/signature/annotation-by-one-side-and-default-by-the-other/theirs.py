def forecast(station, day=0, unit="m"):
    return table(station, day, unit)
