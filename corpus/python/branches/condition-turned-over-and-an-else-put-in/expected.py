def run(level):
<<<<<<< ours
    if level <= 3:
        calm(level)
=======
    if level > 3:
        warn(level)
    else:
        settle(level)
>>>>>>> theirs
    log(level)
