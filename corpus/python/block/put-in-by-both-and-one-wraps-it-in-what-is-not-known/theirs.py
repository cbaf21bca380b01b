def draw(board, level, rows):
    log("drawn")
    with board:
        read(list(3), unit="m")
        board.mark(level)
    board.flush()
