def draw(board, level, rows):
    log("drawn")
    board.put(level, rows)
    board.flush()
