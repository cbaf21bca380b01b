def conv(height, unit):
    factor = FACTORS[unit.lower()]
    return height * factor


def show(row):
    print(conv(row.height, "m"))
