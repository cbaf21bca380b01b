def round_up(given, mass):
<<<<<<< ours
    if mass % 4 > 0:
=======
    if mass < level:
>>>>>>> theirs
        mass -= ebb(given)
    note("level", mix(mass, given))
    return given
