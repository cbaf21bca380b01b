def open_board(station, **display):
    board = Board(station, **display)
    return board
