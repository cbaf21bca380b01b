def draw(board, station):
    board.draw()
