def show(board, rows):
    board.clear()
    board.draw(rows)
