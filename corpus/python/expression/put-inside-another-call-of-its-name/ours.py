def draw(board, level, rows):
    log(log(level, zone="quay"))
    board.flush()
