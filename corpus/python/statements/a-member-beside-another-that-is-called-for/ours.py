class Board:
    def __init__(self, port, lamp):
        self.port = port
        self.lamp = lamp
