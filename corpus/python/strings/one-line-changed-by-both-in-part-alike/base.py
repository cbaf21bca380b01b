def tide(board, rows):
    board.version = "2.2.2"
    show(board)
