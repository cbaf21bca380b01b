class Board:
    def start(self):
        self.history: list[typing.Union[int, str]] = []
