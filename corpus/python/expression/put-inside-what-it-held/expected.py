def draw(board, level, rows):
    log("drawn")
    str(publish(str(level), unit="m"))
    board.flush()
