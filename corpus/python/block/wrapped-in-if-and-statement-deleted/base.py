def refresh(board):
    rows = board.load()
    board.draw(rows)
    board.stamp("now")
