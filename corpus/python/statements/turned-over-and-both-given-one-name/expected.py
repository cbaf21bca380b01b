def forecast(station):
    start(station)
<<<<<<< ours
    level = lookup(station)
    level = read(station)
=======
    level = read(station)
    level = lookup(station)
>>>>>>> theirs
    publish(level)
