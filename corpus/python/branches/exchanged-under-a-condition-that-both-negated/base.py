def run(level):
    if level > 3:
        warn(level)
    else:
        calm(level)
