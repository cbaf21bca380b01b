class Board:
    def __init__(self, station):
        self.station = station
        self.lamp = None
        self.station.connect(retries=3)
        self.refresh()
