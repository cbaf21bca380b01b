def high(rows):
    return max(rows)


def low(levels):
    return min(levels)


BOARD = board()
