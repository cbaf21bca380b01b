from tideboard import levels


def high(path):
    # the highest of rows
    return max(levels(path))


def unit():
    return "m"
