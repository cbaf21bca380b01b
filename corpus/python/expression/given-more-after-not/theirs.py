def draw(board, level, rows):
    quiet = read(level, unit="m")
    board.flush()
