def draw(board, level, rows):
    log(log(level, zone="quay", unit="m"))
    board.flush()
