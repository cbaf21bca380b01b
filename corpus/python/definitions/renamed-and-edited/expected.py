def to_metres(height, unit):
    factor = FACTORS[unit.lower()]
    return height * factor


def show(row):
    print(to_metres(row.height, "m"))
