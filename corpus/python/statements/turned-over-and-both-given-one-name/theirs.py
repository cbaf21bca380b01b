def forecast(station):
    start(station)
    level = read(station)
    level = lookup(station)
    publish(level)
