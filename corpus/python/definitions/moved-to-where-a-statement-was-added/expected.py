def high(rows):
    return max(rows)


GAUGE = gauge()


def low(levels):
    return min(levels)


BOARD = board()
