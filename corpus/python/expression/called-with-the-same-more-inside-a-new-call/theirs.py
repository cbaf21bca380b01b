def draw(board, level, rows):
    read(level, unit="m")
    board.flush()
