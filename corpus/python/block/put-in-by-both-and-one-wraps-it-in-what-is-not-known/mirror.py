def draw(board, level, rows):
    log("drawn")
<<<<<<< ours
    with board:
        read(list(3), unit="m")
        board.mark(level)
=======
    list(3)
    board.mark(level)
>>>>>>> theirs
    board.flush()
