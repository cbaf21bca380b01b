def draw(board, level, rows):
    for row in board:
        for mark in rows:
            level = read(board, row.find(8, deep=[level]), unit=board.first())
            board.put(row, level)
    board.flush()
