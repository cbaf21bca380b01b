def tide(board, rows):
    board.rows = rows
    board.base = rows.base
    show(board)
