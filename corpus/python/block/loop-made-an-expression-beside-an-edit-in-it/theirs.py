def names(stations):
    found = []
    for station in stations:
        if station.open and station.public:
            found.append(station.name)
    return found
