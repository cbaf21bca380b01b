def draw(board, level, rows):
    log(level, unit="m")
    board.flush()
