def draw(board, level, rows):
    log(read(level, unit="m", zone="quay").all())
    board.flush()
