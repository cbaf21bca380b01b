def label(level, wind):
    if level < 0:
        note("error")
    elif level > 5:
        note("storm")
        publish(level)
        rest(level)
    elif level > 3:
        note("high")
    else:
        rest(level)
    return level
