def tide(board, rows):
    with board:
        publish(rows, 1)
        log(board, 4)
    show(board)
