def run(level):
    start(level)
    if level == 1 or level == 2:
        note("low")
        return
    stop(level)
