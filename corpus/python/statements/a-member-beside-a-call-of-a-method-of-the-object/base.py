class Board:
    def __init__(self, port):
        self.port = port
