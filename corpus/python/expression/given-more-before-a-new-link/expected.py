def draw(board, level, rows):
    log(read(level, zone="quay", unit="m").all())
    board.flush()
