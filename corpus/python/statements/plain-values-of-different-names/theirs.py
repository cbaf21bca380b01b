class Board:
    def __init__(self, station):
        self.station = station
        # Not known before the first reading.
        self.levels = {"high": None, "low": -1.5}
        self.refresh()
