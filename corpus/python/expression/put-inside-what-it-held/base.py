def draw(board, level, rows):
    log("drawn")
    publish(str(level))
    board.flush()
