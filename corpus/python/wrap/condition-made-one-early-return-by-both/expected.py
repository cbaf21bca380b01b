def refresh(board, ready):
    if not ready:
        return None
    draw(board.height, colour=blue)
    mark(board.height, flag=True)
    send(board.height)
