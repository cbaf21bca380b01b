def tide(board, rows):
    if rows:
        board.rows = rows
        board.base = rows.base
    show(board)
