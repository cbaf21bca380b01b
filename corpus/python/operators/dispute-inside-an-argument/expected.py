def show(board, row):
<<<<<<< ours
    board.bar(row.level - row.datum, width=3)
=======
    board.bar(row.height - row.zero, width=3)
>>>>>>> theirs
