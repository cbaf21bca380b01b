class Board:
    """Utilities."""
    import sys

    def draw(self):
        pass
