def refresh(board):
    if board.rising:
        lower(board)
        settle(board)
    else:
        bump(board, "tide")
    level(board, 7)
    close(board)
