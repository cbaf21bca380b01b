def draw(board, **style):
    board.draw()
