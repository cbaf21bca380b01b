def draw(board, station=None):
    board.draw()
