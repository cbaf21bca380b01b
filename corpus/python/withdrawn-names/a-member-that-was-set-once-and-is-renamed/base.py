class Board:
    def __init__(self, level, port):
        self.level = level
        self.port = port

    def show(self):
        log(self.level)
        return self.port
