def tide(board, rows):
    with board:
        publish(rows, 3)
        log(board, 2)
    show(board)
