class Board(Panel):
    def show(self):
        log(self.level, self.port)
        save(self.level)
        return self.port
