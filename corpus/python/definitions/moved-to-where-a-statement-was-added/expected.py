def high(rows):
    return max(rows)


def low(levels):
    return min(levels)


GAUGE = gauge()
BOARD = board()
