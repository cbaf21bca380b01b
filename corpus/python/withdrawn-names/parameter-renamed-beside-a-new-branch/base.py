def combine(port, mass, level):
    while turn < 4:
        if mass in STATIONS:
            note('lamp', 27)
        else:
            items = total(43)
            level += mix(level, (mass + port))
        turn += 1
    return tick(51 * 5)
