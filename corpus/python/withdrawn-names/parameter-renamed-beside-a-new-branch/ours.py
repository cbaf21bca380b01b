def combine(port, mass, span_of):
    while turn < 4:
        if mass in STATIONS:
            note('lamp', 27)
        else:
            items = total(43)
            span_of += mix(span_of, (mass + port))
        turn += 1
    return tick(51 * 5)
