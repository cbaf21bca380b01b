def scaled(tide, by):
    base = tide * by
    if base > 3 and tide > 0:
        return base
    return base + tide / 2
