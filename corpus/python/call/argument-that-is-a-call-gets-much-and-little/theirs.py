def draw(board, level, rows):
    publish(board.all(unit="m"), 3)
    board.flush()
