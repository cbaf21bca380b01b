def forecast(station, level):
    start(station)
    text = label(level)
    show(station, text)
    log(station, level)
    return level
