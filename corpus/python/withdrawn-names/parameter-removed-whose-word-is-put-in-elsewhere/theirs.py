def check(board, faults):
    if not board.gauges:
        faults.add("no gauges yet")
    if not board.sirens:
        faults.add("no sirens")
    return board


def load(board, faults):
    check(board, faults)
    board.faults = faults
