def refresh(board):
    rows = board.load()
    board.draw(rows)
