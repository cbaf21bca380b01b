def refresh(board):
    for station in board:
        level = read(station)
        show(station, level)
        log(station)
        settle(station)
