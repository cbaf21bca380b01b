def upd(board):
    rows = board.load()
    board.draw(rows, grid=False)
