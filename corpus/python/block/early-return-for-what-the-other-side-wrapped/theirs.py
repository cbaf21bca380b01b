def refresh(board):
    note(board, "lamp", 50)
    if not (board["gauge"] % 5 > 1):
        return board
    note(board, "flow", 7)
    return board
