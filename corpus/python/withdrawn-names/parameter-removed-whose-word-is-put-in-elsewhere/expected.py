def check(board):
    if not board.gauges:
<<<<<<< ours
        fail("no gauges")
=======
        faults.add("no gauges yet")
    if not board.sirens:
        faults.add("no sirens")
>>>>>>> theirs
    return board


def load(board, faults):
    check(board)
    board.faults = faults.all()
