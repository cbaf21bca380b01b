def draw(board, level, rows):
    log("drawn")
    with board:
        board.mark(level)
        board.put(level, rows)
        board.save()
    board.flush()
