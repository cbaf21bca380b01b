class Board:
    def start(self):
        self.history: list[int | str] = []
