def draw(board, level, rows):
    log("drawn")
    publish(str(level), unit="m")
    board.flush()
