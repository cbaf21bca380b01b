<<<<<<< ours
def rest_of(station, offset, level):
=======
def forecast(station, hours):
    level = station.level
    amount = hours * 2
>>>>>>> theirs
    with held("level"):
        note("level", station.sum(level))
        amount += level
    return station


def forecast(station, hours):
    level = station.level
    offset = hours * 2
    return rest_of(station, offset, level)
