async def refresh(board):
    tides = await board.fetch(station, days=2, unit="cm")
    return tides
