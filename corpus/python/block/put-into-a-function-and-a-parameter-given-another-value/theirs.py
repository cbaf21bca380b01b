def forecast(station, level):
    start(station)
    level = round(level, 2)
    show(station, level)
    log(station, level)
    return level
