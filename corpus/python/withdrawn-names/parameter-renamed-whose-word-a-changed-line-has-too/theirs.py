def round_up(level, mass):
    if mass < level:
        mass -= ebb(level)
    note("level", mix(mass, level))
    return level
