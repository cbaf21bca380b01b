def refresh(board):
    tides = yield board.fetch(station, days=2, unit="m")
    return tides
