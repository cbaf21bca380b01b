def names(stations):
<<<<<<< ours
    return [station.name for station in stations if station.open]
=======
    found = []
    for station in stations:
        if station.open and station.public:
            found.append(station.name)
    return found
>>>>>>> theirs
