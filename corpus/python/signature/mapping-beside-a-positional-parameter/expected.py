def draw(board, station, **style):
    board.draw()
