def tide(board, rows):
    level = list(load(rows, "m"))
    show(board)
