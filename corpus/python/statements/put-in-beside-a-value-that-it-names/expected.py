class Board:
    def __init__(self, station):
        self.station = station
<<<<<<< ours
=======
        self.lamp = None
        setattr(station, "lamp", 3)
>>>>>>> theirs
        self.refresh()
