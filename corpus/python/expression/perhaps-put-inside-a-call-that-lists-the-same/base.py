def draw(board, level, rows):
    log(level)
    board.flush()
