def forecast(station):
    start(station)
    offset = lookup(station)
    level = read(station)
    publish(level, offset)
