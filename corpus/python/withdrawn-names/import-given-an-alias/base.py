import tideboard


def high(rows):
    return tideboard.highest(rows)


def unit():
    return "m"
