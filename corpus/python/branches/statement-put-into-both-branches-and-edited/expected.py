def refresh(board):
    if board.rising:
        lower(board)
        settle(board)
        level(board)
    else:
        bump(board, "tide")
        level(board)
<<<<<<< ours
=======
    level(board, 7)
>>>>>>> theirs
    close(board)
