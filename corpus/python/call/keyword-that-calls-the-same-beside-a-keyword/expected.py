def draw(board, level, rows):
    log(level, unit="m", mark=log(zone=level))
    board.show(rows)
    board.flush()
