@board.view(public=True)
def tides(station):
    level = round(station.height, 1)
    if station.ready and level:
        return level
