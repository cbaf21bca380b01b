def draw(board, level, rows):
    quiet = not read(level, unit="m", zone="quay")
    board.flush()
