class Board:
    """Utilities."""

    def draw(self):
        pass
