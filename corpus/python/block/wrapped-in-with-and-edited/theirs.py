def refresh(board):
    rows = board.load()
    board.draw(rows, grid=True)
    board.stamp("now")
