class Board:
    """The tides of a port."""

    __slots__ = ("port",)

    def __len__(self):
        return len(self.port)

    def show(self):
        return self.port
