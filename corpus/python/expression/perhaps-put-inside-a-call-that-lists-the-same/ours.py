def draw(board, level, rows):
    board.put(level, log(rows))
    board.flush()
