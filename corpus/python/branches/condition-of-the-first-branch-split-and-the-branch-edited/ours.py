def label(level, wind):
    start(level)
    if level > 4:
        note("storm")
        publish(level)
    elif wind > 20:
        note("storm")
        publish(level)
    return level
