def forecast(station, level):
    check(station)
    start(station)
    return level
