def forecast(
    station,
    day: int,  # ahead
    unit: str,
):
    return table(station, day, unit)
