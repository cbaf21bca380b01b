def refresh(board, ready):
    if ready:
        draw(board.height)
        mark(board.height)
        send(board.height)
