def draw(board, level, rows):
    log(level)
    board.show(rows)
    board.flush()
