def rows(path):
    return list(open(path))


def high(path):
    return max(rows(path))


def low(path):
    return min(rows(path))


def unit():
    return "m"
