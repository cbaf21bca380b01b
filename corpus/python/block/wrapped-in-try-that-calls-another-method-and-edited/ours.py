def refresh(board):
    for station in board.stations:
        levels = forecast(station)
        board.show(station, levels, lamp=board.floods(levels))
