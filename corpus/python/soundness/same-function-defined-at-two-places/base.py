def high(rows):
    return max(rows)


def low(rows):
    return min(rows)


def spread(rows):
    return high(rows) - low(rows)
