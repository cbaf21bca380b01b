def refresh(board):
    note(board, "lamp", 50)
    if board["gauge"] % 5 > 1:
        note(board, "flow", 7)
    return board
