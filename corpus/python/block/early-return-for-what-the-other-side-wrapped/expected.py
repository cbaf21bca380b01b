def refresh(board):
    note(board, "lamp", 50)
<<<<<<< ours
    if board["lamp"] % 4 > 1:
        if board["gauge"] % 5 > 1:
            note(board, "flow", 7)
=======
    if not (board["gauge"] % 5 > 1):
        return board
    note(board, "flow", 7)
>>>>>>> theirs
    return board
