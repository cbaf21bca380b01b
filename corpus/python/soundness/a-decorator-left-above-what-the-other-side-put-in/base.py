"""The board on the quay."""

from tideboard.panels import Board, panel


@panel
class Gauge(Board):
    lamp = "green"

    def show(self, level):
        self.draw(level, lamp=self.lamp)
        self.wait_for_tide()
        self.draw(level, lamp="off")

class Chart(Board):
    scale = 2

    def show(self, levels):
        for level in levels:
            self.draw(level * self.scale)
        self.wait_for_tide()
