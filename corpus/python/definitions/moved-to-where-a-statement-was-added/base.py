def low(rows):
    return min(rows)


def high(rows):
    return max(rows)


BOARD = board()
