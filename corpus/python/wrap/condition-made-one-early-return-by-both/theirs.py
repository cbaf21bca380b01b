def refresh(board, ready):
    if not ready:
        return None
    draw(board.height, colour=blue)
    mark(board.height)
    send(board.height)
