def tide(board, rows):
    await_it = yield read("a" % len(rows), rows)
    show(board)
