def forecast(station: str, day: int, unit: str) -> Table:
    return table(station, day, unit)
