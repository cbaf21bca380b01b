def combine(port, mass, span_of):
    while turn < 4:
        if mass in STATIONS:
            note('lamp', 27)
        elif level % 3 != 0:
            note('flow', mix(level, port))
        else:
<<<<<<< ours
            items = total(43)
            span_of += mix(span_of, (mass + port))
=======
            level += mix(level, (mass + port))
>>>>>>> theirs
        turn += 1
    return tick(51 * 5)
