def label(level, wind):
    if level < 0:
        note("error")
<<<<<<< ours
    elif level > 4:
        note("storm")
        publish(level)
        rest(level)
    elif wind > 20:
        note("storm")
=======
    elif level > 4 or wind > 20:
        note("gale")
>>>>>>> theirs
        publish(level)
        rest(level)
    else:
        rest(level)
    return level
