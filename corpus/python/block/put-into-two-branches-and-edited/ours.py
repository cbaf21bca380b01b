def announce(board, tide):
    if tide.high:
        board.show(label(tide, unit="m"), colour="red")
    return board
