def check(board):
    if not board.gauges:
<<<<<<< ours
        faults.add("no gauges yet")
    if not board.sirens:
        faults.add("no sirens")
=======
        fail("no gauges")
>>>>>>> theirs
    return board


def load(board, faults):
    check(board)
    board.faults = faults.all()
