def refresh(board):
    if board["level"] > 1:
        note(board, "buoy", 21)
        note(board, "gauge", 46)
        board["quay"] -= 53
        board["gauge"] -= 18
    board["lamp"] -= 8
    return board
