def announce(board, tide):
    if tide.high and not tide.surge:
        board.show(label(tide), colour="red")
    elif tide.surge:
        board.show(label(tide), colour="red")
        board.ring()
    return board
