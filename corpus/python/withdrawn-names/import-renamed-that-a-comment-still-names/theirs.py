from tideboard import rows


def high(path):
    # the highest of rows
    return max(rows(path), default=0)


def low(path):
    return min(rows(path))


def unit():
    return "m"
