def run(level):
    level = float(level)
    warn(level)
    log(level)
