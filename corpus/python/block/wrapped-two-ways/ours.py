def show(board, rows):
    board.clear()
    if board.live:
        board.draw(rows, grid=True)
