def settle(board):
    if board.level < 0:
        board.gauge += 18
    else:
        board.flow += 3
    board.raise_to(board.tide)
    board.lower(LIMIT)
    return board
