def publish(board):
    board.settle()
<<<<<<< ours
    if not board.live:
        return board
=======
    if board.live:
        board.paint()
        board.send()
    else:
        board.dim()
>>>>>>> theirs
    board.paint()
    board.send()
    return board
