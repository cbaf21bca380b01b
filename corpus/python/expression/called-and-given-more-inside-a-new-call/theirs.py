def draw(board, level, rows):
    marks = read(level, unit="m")
    board.flush()
