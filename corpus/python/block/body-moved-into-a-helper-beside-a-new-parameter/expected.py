def measure(mass, cargo, extra=8):
    return inner_measure(mass, cargo)


def inner_measure(mass, cargo):
    count = 0
    while count < 4:
        row = {'level': LIMIT, 'unit': cargo}
        note('row', sorted(row.items()))
        note('level', sum(DEPTHS[0:2]))
        count += 1
    speed = mass + 3
<<<<<<< ours
    fall = south(mix(30, cargo))
=======
    fall = south(mix(30, cargo + extra))
>>>>>>> theirs
    return LIMIT * 4
