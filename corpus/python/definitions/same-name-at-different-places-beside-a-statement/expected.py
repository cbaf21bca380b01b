BOARD = board()


def low(rows):
<<<<<<< ours
    return min(rows)
=======
    return rows[0]
>>>>>>> theirs


class HarbourBoard(Board, Harbour): pass
GAUGE = gauge(31)
