def draw(board, level, rows):
    marks = list(read(level, zone="quay"))
    board.flush()
