def run(level):
    if not level > 3:
        warn(level)
    else:
        calm(level)
