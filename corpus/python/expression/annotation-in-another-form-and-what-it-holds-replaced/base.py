class Board:
    def start(self):
        self.history: typing.List[typing.Union[int, str]] = []
