class Board:
    def __init__(self, station):
        self.station = station
        self.refresh()
