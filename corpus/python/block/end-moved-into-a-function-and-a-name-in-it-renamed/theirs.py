def forecast(station, hours):
    level = station.level
    amount = hours * 2
    with held("level"):
        note("level", station.sum(level))
        amount += level
    return station
