def scaled(level, by):
    base = level * by
    if base > 3 and level > 0:
        return base
    return base + level / 2
