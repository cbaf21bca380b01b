def draw(board, level, rows):
    log(read(level, unit="m"))
    board.flush()
