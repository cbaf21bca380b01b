class Board:
    def start(self):
        self.lamp = None
        self.refresh()
