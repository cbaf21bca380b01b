def draw(board, level, rows):
    marks = list(read(level, unit="m", zone="quay"))
    board.flush()
