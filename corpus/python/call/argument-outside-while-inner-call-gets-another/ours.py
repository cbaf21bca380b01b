def draw(board, level, rows):
    board.put(line(level, read(rows, 3, unit="m")))
    board.flush()
