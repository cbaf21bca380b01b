def refresh(board, ready):
    if not ready:
        return None
    draw(board.height)
    mark(board.height, flag=True)
    send(board.height)
