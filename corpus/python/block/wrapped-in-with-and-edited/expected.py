def refresh(board):
    with board.lock:
        rows = board.load()
        board.draw(rows, grid=True)
    board.stamp("now")
