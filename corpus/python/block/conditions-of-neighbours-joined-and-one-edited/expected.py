def run(level):
    start(level)
<<<<<<< ours
    if level == 1 or level == 2:
=======
    if level == 1:
        note("lower")
        return
    if level == 2:
>>>>>>> theirs
        note("low")
        return
    stop(level)
