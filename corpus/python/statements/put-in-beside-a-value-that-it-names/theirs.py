class Board:
    def __init__(self, station):
        self.station = station
        self.lamp = None
        setattr(station, "lamp", 3)
        self.refresh()
