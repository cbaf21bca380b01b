def run(level):
    if not level > 3:
<<<<<<< ours
=======
        warn(level)
    else:
>>>>>>> theirs
        calm(level)
    else:
        warn(level)
