def refresh(board):
<<<<<<< ours
    note(board, "buoy", 21)
    note(board, "gauge", 46)
=======
    if board["level"] > 1:
        note(board, "buoy", 21)
        note(board, "gauge", 46)
        board["quay"] -= 53
        board["gauge"] -= 18
>>>>>>> theirs
    settle(board)
    return board


def settle(board):
    board["quay"] -= 53
    board["gauge"] -= 18
    board["lamp"] -= 8
