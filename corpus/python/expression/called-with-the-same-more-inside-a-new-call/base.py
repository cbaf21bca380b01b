def draw(board, level, rows):
    read(level)
    board.flush()
