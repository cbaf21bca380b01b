def draw(board, level, rows):
    marks = list(read(level, zone="quay", unit="m"))
    board.flush()
