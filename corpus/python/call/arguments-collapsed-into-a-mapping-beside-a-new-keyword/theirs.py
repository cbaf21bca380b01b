def open_board(station, unit="m", zone="utc"):
    board = Board(station, unit=unit, zone=zone, refresh=60)
    return board
