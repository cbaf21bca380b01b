def tide(board, rows):
    level = read(rows, "m")
    show(board)
