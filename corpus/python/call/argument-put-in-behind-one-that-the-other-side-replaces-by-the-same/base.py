def open_board(port):
    return board.plot(port, unit="m", zone="utc")
