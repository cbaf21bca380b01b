def combine(port, mass, level):
    while turn < 4:
        if mass in STATIONS:
            note('lamp', 27)
        elif level % 3 != 0:
            note('flow', mix(level, port))
        else:
            level += mix(level, (mass + port))
        turn += 1
    return tick(51 * 5)
