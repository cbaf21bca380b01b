def forecast(station):
    start(station)
    level = read(station)
    offset = lookup(station, level)
    publish(level, offset)
