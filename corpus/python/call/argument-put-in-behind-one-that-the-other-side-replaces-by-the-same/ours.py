def open_board(port):
    return board.plot(port, tide, unit="m", zone="utc")
