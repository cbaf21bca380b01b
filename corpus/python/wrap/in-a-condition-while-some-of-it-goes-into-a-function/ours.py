def refresh(board):
    note(board, "buoy", 21)
    note(board, "gauge", 46)
    settle(board)
    return board


def settle(board):
    board["quay"] -= 53
    board["gauge"] -= 18
    board["lamp"] -= 8
