def warn(level):
<<<<<<< ours
    if (level > high) and level in known:
=======
    if (level > high and (level in known)):
>>>>>>> theirs
        send(level)
