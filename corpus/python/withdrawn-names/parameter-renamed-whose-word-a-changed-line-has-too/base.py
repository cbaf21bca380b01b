def round_up(level, mass):
    if mass % 4 > 0:
        mass -= ebb(level)
    note("level", mix(mass, level))
    return level
