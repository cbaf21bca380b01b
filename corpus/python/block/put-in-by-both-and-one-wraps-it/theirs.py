def draw(board, level, rows):
    log("drawn")
    if rows:
        board.put(level, rows)
        board.mark(level)
    board.flush()
