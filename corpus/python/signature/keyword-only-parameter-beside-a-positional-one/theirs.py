def draw(board, *, style=None):
    board.draw()
