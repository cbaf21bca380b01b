def show(board, row):
    board.bar(row.level - row.datum, width=2)
