from tideboard import rows


def high(path):
    # the highest of rows
    return max(rows(path))


def unit():
    return "m"
