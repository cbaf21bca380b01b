def check(board, faults):
    if not board.gauges:
        faults.add("no gauges")
    return board


def load(board, faults):
    check(board, faults)
    board.faults = faults
