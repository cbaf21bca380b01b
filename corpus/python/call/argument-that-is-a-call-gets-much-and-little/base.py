def draw(board, level, rows):
    publish(board.all(), 3)
    board.flush()
