def label(level, wind):
    start(level)
<<<<<<< ours
    if level > 4:
        note("storm")
        publish(level)
    elif wind > 20:
        note("storm")
=======
    if level > 4 or wind > 20:
        note("gale")
>>>>>>> theirs
        publish(level)
    return level
