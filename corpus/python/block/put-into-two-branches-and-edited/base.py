def announce(board, tide):
    if tide.high:
        board.show(label(tide), colour="red")
    return board
