def show(board, rows):
    board.clear(fade=True)
    with board.lock:
        board.draw(rows)
