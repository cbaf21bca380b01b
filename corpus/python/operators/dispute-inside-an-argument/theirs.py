def show(board, row):
    board.bar(row.height - row.zero, width=3)
