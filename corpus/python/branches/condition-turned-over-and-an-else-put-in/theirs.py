def run(level):
    if level > 3:
        warn(level)
    else:
        settle(level)
    log(level)
