class Board:
    def __init__(self, port):
        self.port = port
<<<<<<< ours
        self.unit = "m"
=======
        self.chart = Chart(self)
>>>>>>> theirs
