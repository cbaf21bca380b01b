def draw(board, level, rows):
<<<<<<< ours
    board.put(level, log(rows))
=======
    log(level, unit="m")
>>>>>>> theirs
    board.flush()
