def draw(board, level, rows):
    quiet = not read(level, zone="quay", unit="m")
    board.flush()
