def refresh(board):
<<<<<<< ours
    if board["level"] > 1:
        note(board, "buoy", 21)
        note(board, "gauge", 46)
        board["quay"] -= 53
        board["gauge"] -= 18
=======
    note(board, "buoy", 21)
    note(board, "gauge", 46)
>>>>>>> theirs
    settle(board)
    return board


def settle(board):
    board["quay"] -= 53
    board["gauge"] -= 18
    board["lamp"] -= 8
