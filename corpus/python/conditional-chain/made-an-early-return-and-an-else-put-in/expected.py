def publish(board):
    board.settle()
<<<<<<< ours
    if not board.live:
        return board
    board.paint()
    board.send()
=======
    if board.live:
        board.paint()
        board.send()
    else:
        board.dim()
>>>>>>> theirs
    return board
