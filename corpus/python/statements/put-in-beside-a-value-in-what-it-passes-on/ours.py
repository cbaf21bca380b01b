class Board:
    def start(self):
        self.refresh()
