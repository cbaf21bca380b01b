def names(stations):
    found = []
    for station in stations:
        if station.open:
            found.append(station.name)
    return found
