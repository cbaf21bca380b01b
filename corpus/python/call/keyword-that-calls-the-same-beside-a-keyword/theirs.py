def draw(board, level, rows):
    log(level, mark=log(zone=level))
    board.show(rows)
    board.flush()
