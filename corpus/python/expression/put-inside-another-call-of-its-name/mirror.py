def draw(board, level, rows):
    log(log(level, unit="m", zone="quay"))
    board.flush()
