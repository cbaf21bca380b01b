def check(level, wind):
    start(level)
<<<<<<< ours
    if level > 4:
        raise StormError("storm", level, wind)
    if wind > 20:
        raise StormError("storm", level, wind)
=======
    if level > 4 or wind > 20:
        raise StormError("gale", level, wind)
>>>>>>> theirs
    publish(level)
