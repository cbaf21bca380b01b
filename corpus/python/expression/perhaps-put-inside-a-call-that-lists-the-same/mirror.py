def draw(board, level, rows):
<<<<<<< ours
    log(level, unit="m")
=======
    board.put(level, log(rows))
>>>>>>> theirs
    board.flush()
