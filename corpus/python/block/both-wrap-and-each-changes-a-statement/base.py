def tide(board, rows):
    publish(rows, 1)
    log(board, 2)
    show(board)
