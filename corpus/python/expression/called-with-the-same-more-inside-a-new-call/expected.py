def draw(board, level, rows):
    publish(read(level, unit="m"))
    board.flush()
