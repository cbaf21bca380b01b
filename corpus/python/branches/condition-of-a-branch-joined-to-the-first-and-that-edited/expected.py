def label(level):
<<<<<<< ours
    if level == 1 or level == 2:
=======
    if level == 1:
        note("lowest")
        publish(level)
    elif level == 2:
>>>>>>> theirs
        note("low")
        publish(level)
    else:
        note("high")
