def rest_of(station, offset, level):
    with held("level"):
        note("level", station.sum(level))
<<<<<<< ours
        offset += level
=======
        amount += level
>>>>>>> theirs
    return station


def forecast(station, hours):
    level = station.level
    amount = hours * 2
    return rest_of(station, offset, level)
