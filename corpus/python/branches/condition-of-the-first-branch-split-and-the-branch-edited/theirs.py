def label(level, wind):
    start(level)
    if level > 4 or wind > 20:
        note("gale")
        publish(level)
    return level
