class Board(Panel):
    def show(self):
        log(self.level)
        return self.port
