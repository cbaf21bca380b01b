def draw(board, level, rows):
    log("drawn")
<<<<<<< ours
    list(3)
    board.mark(level)
=======
    with board:
        read(list(3), unit="m")
        board.mark(level)
>>>>>>> theirs
    board.flush()
