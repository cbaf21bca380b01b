def note(board, surge):
    if surge:
        board.warn("surge", level=surge.level)
    else:
        board.calm()
