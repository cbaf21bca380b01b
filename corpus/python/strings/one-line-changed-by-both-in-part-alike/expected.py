def tide(board, rows):
<<<<<<< ours
    board.version = "2.3.0.dev"
=======
    board.version = "2.2.3.dev"
>>>>>>> theirs
    show(board)
