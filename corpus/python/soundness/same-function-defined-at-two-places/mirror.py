def high(rows):
    return max(rows)


def mean(rows):
    return sum(rows) / len(rows)


def low(rows):
    return min(rows)


def spread(rows):
    return high(rows) - low(rows)
