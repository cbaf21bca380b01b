def forecast(station: str, day: int=0, unit: str="m") -> Table:
    return table(station, day, unit)
