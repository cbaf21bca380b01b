def refresh(board):
    tides = yield board.fetch(station, days=2, unit="cm")
    return tides
