def open_board(port):
<<<<<<< ours
    return board.plot(port, tide, unit="m", zone="utc")
=======
    return board.plot(tide, unit="m", zone="utc")
>>>>>>> theirs
