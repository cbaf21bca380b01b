import tide


class Board:
    def refresh(board, station):
        """Refresh a board.

        Takes the newest levels.
        Never blocks.
        """
        levels = tide.read(station)
        board.show(levels, station)
