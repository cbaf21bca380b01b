@board.view
def tides(station):
    level = station.height
    if station.ready:
        return level
