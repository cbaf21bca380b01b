def draw(board, level, rows):
    log("drawn")
    board.mark(level)
    board.put(level, rows)
    board.flush()
