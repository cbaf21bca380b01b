class Board:
    def start(self):
        self.history: typing.List[int | str] = []
