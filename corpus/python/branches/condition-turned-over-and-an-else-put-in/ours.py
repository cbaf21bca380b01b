def run(level):
    if level <= 3:
        calm(level)
    log(level)
