def tide(board, rows):
    if rows:
        board.rows = rows
        board.top = rows.top
        board.base = rows.base
    show(board)
