@board.page
def tides(station):
    level = station.level
    if station.open:
        return level
