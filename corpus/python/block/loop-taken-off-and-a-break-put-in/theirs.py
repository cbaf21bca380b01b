def refresh(board):
    for station in board:
        for turn in range(1):
            level = read(station)
            show(station, level)
            if level < 2:
                break
            log(station)
        settle(station)
