def round_up(given, mass):
    if mass % 4 > 0:
        mass -= ebb(given)
    note("level", mix(mass, given))
    return given
