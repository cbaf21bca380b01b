def draw(board, station, *, style=None):
    board.draw(station)
