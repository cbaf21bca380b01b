def run(level):
    if level > 3:
        warn(level)
    log(level)
