def forecast(station, level):
    start(station)
    show(station, level)
    log(station, level)
    return level
