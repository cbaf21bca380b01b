def tide(board, rows):
    if rows and board.kind in ("high", "low"):
        if board.debug:
            text = (f"{board.name} "
                    f"{rows}")
            log(text)
    show(board)
