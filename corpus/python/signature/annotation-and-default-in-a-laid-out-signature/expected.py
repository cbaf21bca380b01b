def forecast(
    station,
    day: int = 0,  # ahead
    unit: str="m",
):
    return table(station, day, unit)
