def high(rows):
    return max(rows)


def low(rows):
    return min(rows)
