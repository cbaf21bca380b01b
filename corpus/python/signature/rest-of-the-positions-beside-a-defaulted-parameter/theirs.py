def draw(board, *rest):
    board.draw()
