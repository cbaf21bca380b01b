def forecast(
    station,
    day,  # ahead
    unit,
):
    return table(station, day, unit)
