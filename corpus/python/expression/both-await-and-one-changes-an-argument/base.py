def tide(board, rows):
    await_it = read("a" % len(rows), rows)
    show(board)
