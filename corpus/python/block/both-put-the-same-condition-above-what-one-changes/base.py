def tide(board, rows):
    if rows:
        if board.debug or True:
            text = "{} {}".format(
                board.name, rows)
            log(text)
    show(board)
