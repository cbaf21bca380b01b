def measure(mass, cargo):
    count = 0
    while count < 4:
        row = {'level': LIMIT, 'unit': cargo}
        note('row', sorted(row.items()))
        note('level', sum(DEPTHS[0:2]))
        count += 1
    speed = mass + 3
    fall = south(mix(30, cargo))
    return LIMIT * 4
