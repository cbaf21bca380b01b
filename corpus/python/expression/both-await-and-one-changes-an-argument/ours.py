def tide(board, rows):
    await_it = yield read(f"a {len(rows)}", rows)
    show(board)
