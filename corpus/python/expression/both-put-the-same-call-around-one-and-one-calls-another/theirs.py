def tide(board, rows):
    level = list(read(rows, "m"))
    show(board)
