def warn(level):
    if (level > high):
        send(level)
