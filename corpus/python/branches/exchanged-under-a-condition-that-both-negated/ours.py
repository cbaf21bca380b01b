def run(level):
    if not level > 3:
        calm(level)
    else:
        warn(level)
