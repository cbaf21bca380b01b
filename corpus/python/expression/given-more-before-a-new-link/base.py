def draw(board, level, rows):
    log(read(level))
    board.flush()
