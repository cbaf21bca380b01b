def forecast(station, hours):
    level = station.level
    offset = hours * 2
    with held("level"):
        note("level", station.sum(level))
        offset += level
    return station
