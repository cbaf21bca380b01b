def tide(board, rows):
    board.version = "2.2.3.dev"
    show(board)
