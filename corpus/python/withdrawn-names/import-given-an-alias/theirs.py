import tideboard


def high(rows):
    return tideboard.highest(rows, 0)


def low(rows):
    return tideboard.lowest(rows)


def unit():
    return "m"
