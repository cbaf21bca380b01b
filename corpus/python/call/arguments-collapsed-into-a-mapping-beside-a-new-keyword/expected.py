def open_board(station, **display):
    board = Board(station, refresh=60, **display)
    return board
