def check(board):
    if not board.gauges:
        fail("no gauges")
    return board


def load(board, faults):
    check(board)
    board.faults = faults.all()
