def show(board, row):
    board.bar(row.height - row.datum, width=2)
