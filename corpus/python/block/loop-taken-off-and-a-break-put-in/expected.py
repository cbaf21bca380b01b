def refresh(board):
    for station in board:
        level = read(station)
        show(station, level)
<<<<<<< ours
=======
        if level < 2:
            break
>>>>>>> theirs
        log(station)
        settle(station)
