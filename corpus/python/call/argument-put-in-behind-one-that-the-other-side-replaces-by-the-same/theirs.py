def open_board(port):
    return board.plot(tide, unit="m", zone="utc")
