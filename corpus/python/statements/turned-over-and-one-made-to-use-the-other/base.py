def forecast(station):
    start(station)
    level = read(station)
    offset = lookup(station)
    publish(level, offset)
