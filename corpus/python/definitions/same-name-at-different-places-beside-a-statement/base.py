BOARD = board()


class HarbourBoard(Board, Harbour): pass
