def refresh(board):
    for station in board.stations:
        try:
            levels = forecast(station)
            board.show(station, levels)
        except TimeoutError:
            board.mark_stale(station)
