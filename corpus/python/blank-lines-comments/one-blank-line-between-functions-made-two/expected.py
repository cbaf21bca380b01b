def low(rows):
    return min(rows, default=0)


def high(rows, floor=0):
    return max(rows, default=floor)
