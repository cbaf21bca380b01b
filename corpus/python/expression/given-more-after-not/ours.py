def draw(board, level, rows):
    quiet = not read(level, zone="quay")
    board.flush()
