def warn(level):
    if (level > high and (level in known)):
        send(level)
