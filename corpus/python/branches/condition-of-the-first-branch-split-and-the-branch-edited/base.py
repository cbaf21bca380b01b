def label(level, wind):
    start(level)
    if level > 4 or wind > 20:
        note("storm")
        publish(level)
    return level
