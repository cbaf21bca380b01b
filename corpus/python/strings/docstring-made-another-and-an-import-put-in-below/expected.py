class Board:
    """What the tide board is made of.

    Nothing here is meant for other programs.
    """
    import zlib
    import sys

    def draw(self):
        pass
