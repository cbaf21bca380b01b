def draw(board):
    board.draw()
