BOARD = board()


def low(rows):
    return rows[0]


class HarbourBoard(Board, Harbour): pass
GAUGE = gauge(31)
