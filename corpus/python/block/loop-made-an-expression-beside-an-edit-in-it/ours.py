def names(stations):
    return [station.name for station in stations if station.open]
