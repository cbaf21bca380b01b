def high(table):
    return max(table)


def low(table):
    return min(table)


def mean(table):
    return sum(table) / len(table)


def unit():
    return "m"
