def draw(board, level, rows):
    log(read(level, zone="quay").all())
    board.flush()
