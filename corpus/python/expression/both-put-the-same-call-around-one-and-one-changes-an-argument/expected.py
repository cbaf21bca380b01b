def tide(board, rows):
    level = list(read(rows, "ft"))
    show(board)
