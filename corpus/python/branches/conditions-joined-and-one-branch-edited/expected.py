def label(level):
    if level < 0:
        note("error")
<<<<<<< ours
    elif level == 1 or level == 2:
=======
    elif level == 1:
        note("low")
        publish(level, 4)
    elif level == 2:
>>>>>>> theirs
        note("low")
        publish(level)
    else:
        note("high")
