class Board:
    def __init__(self, level, port):
        self.height = level
        self.port = port

    def show(self):
        log(self.height, self.port)
<<<<<<< ours
=======
        save(self.level)
>>>>>>> theirs
        return self.port
