def announce(board, tide):
    if tide.high and not tide.surge:
<<<<<<< ours
        board.show(label(tide, unit="m"), colour="red")
=======
        board.show(label(tide), colour="red")
>>>>>>> theirs
    elif tide.surge:
        board.show(label(tide), colour="red")
        board.ring()
    return board
