def rows(path):
    return list(open(path))


def high(path):
    return max(rows(path), default=0)


def low(path):
    return min(rows(path))


def first(path):
    return rows(path)[0]


def unit():
    return "m"
