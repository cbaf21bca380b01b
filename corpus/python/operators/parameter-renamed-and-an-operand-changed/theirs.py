def scaled(tide, by):
    base = tide * by
    if base > 4 and tide > 0:
        return base
    return base + tide / 3
