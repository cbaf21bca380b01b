def draw(board, level, rows):
    quiet = read(level)
    board.flush()
