def label(level):
    if level == 1 or level == 2:
        note("low")
        publish(level)
    else:
        note("high")
