def label(level, wind):
    if level < 0:
        note("error")
    elif level > 4 or wind > 20:
        note("gale")
        publish(level)
        rest(level)
    else:
        rest(level)
    return level
