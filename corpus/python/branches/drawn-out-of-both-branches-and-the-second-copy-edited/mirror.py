def settle(board):
    if board.level < 0:
        board.gauge += 18
<<<<<<< ours
        board.raise_to(board.tide)
=======
>>>>>>> theirs
    else:
        board.flow += 3
<<<<<<< ours
        board.raise_to(board.level)
=======
    board.raise_to(board.tide)
>>>>>>> theirs
    board.lower(LIMIT)
    return board
