class Board:
    def __init__(self, station, lamp):
        self.station = station
        self.lamp = lamp
        # Not known before the first reading.
        self.levels = {"high": None, "low": -1.5}
        self.refresh()
