def forecast(
    station,
    day = 0,  # ahead
    unit="m",
):
    return table(station, day, unit)
