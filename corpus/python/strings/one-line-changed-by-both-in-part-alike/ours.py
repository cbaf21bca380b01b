def tide(board, rows):
    board.version = "2.3.0.dev"
    show(board)
