def label(level, wind):
    if level < 0:
        note("error")
    elif level > 4:
        note("storm")
        publish(level)
        rest(level)
    else:
        rest(level)
    return level
