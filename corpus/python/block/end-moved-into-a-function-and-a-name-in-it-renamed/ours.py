def rest_of(station, offset, level):
    with held("level"):
        note("level", station.sum(level))
        offset += level
    return station


def forecast(station, hours):
    level = station.level
    offset = hours * 2
    return rest_of(station, offset, level)
