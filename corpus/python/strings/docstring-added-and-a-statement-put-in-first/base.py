def run(level):
    warn(level)
    log(level)
