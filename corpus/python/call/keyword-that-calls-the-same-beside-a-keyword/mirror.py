def draw(board, level, rows):
    log(level, mark=log(zone=level), unit="m")
    board.show(rows)
    board.flush()
