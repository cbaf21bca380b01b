class Board:
    def __init__(self, station, lamp):
        self.station = station
        self.lamp = lamp
        self.refresh()
