import tideboard as tb


def high(rows):
    return tb.highest(rows)


def unit():
    return "m"
