class Board:
    def show(self):
        return self.port
