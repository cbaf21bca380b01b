def open_board(port):
    return board.plot(tide, tide, unit="m", zone="utc")
