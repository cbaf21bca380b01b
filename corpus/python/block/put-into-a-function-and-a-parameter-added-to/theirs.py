def forecast(station, level):
    start(station)
    level += OFFSET
    show(station, level)
    log(station, level)
    return level
