def tide(board, rows):
    with board:
        publish(rows, 3)
        log(board, 4)
    show(board)
