def open_board(station, unit="m", zone="utc"):
    board = Board(station, unit=unit, zone=zone)
    return board
