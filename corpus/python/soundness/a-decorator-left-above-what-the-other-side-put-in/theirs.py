"""The board on the quay."""

from tideboard.panels import Board, panel


@panel

class Chart(Board):
    scale = 2

    def show(self, levels):
        for level in levels:
            self.draw(level * self.scale)
        self.wait_for_tide()
