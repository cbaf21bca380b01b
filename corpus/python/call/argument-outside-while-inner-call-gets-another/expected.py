def draw(board, level, rows):
    board.put(line(level, read(rows, 3, unit="m"), "red"), mark=3)
    board.flush()
