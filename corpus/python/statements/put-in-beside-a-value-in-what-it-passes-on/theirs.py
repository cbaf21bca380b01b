class Board:
    def start(self):
        self.lamp = None
        show(self)
        self.refresh()
