class Board(Panel):
    def show(self):
        log(self.height, self.port)
        save(self.level)
        return self.port
