<<<<<<< ours
def draw(board, station=None):
=======
def draw(board, *rest):
>>>>>>> theirs
    board.draw()
