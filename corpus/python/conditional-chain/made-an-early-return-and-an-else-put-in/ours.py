def publish(board):
    board.settle()
    if not board.live:
        return board
    board.paint()
    board.send()
    return board
