def draw(board, level, rows):
    log("drawn")
    list(3)
    board.mark(level)
    board.flush()
