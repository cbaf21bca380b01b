def publish(board):
    board.settle()
    if board.live:
        board.paint()
        board.send()
    else:
        board.dim()
    return board
