class Board:
    """The tides of a port."""

    __slots__ = ("port",)

    def show(self):
        return self.port
