BOARD = board()


class HarbourBoard(Board, Harbour): pass


def low(rows):
    return min(rows)
