def label(level):
    if level < 0:
        note("error")
    elif level == 1:
        note("low")
        publish(level)
    elif level == 2:
        note("low")
        publish(level)
    else:
        note("high")
