def low(rows):
    return min(rows)


def high(rows):
    return max(rows)


GAUGE = gauge()
BOARD = board()
