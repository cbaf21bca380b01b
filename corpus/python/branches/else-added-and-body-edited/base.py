def note(board, surge):
    if surge:
        board.warn("surge")
