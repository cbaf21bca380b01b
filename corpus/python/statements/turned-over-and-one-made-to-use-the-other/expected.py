def forecast(station):
    start(station)
<<<<<<< ours
    offset = lookup(station, level)
    level = read(station)
=======
    level = read(station)
    offset = lookup(station, level)
>>>>>>> theirs
    publish(level, offset)
