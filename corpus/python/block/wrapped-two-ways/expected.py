def show(board, rows):
    board.clear(fade=True)
<<<<<<< ours
    if board.live:
=======
    with board.lock:
>>>>>>> theirs
        board.draw(rows, grid=True)
