def draw(board, level, rows):
    marks = read(level)
    board.flush()
