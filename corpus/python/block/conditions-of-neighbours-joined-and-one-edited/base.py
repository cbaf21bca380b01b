def run(level):
    start(level)
    if level == 1:
        note("low")
        return
    if level == 2:
        note("low")
        return
    stop(level)
