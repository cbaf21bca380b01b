async def refresh(board):
    tides = await board.fetch(station, days=2, unit="m")
    return tides
