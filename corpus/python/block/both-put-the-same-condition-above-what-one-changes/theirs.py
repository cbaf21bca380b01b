def tide(board, rows):
    if rows and board.kind in ("high", "low"):
        if board.debug:
            text = "{} {}".format(
                board.name, rows)
            log(text)
    show(board)
