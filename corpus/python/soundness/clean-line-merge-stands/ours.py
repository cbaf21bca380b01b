def high(rows):
    return max(rows, default=0)


def low(rows):
    return min(rows)


def spread(rows):
    return high(rows) - low(rows)
