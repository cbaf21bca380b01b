class Board(Panel):
    def show(self):
        log(self.height)
        return self.port
