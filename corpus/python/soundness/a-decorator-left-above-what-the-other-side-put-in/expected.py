"""The board on the quay."""

from tideboard.panels import Board, panel


<<<<<<< ours
@panel
class Gauge(Board):
    lamp = "green"

    def show(self, level):
        self.draw(level, lamp=self.lamp)
        self.wait_for_tide()
        self.draw(level, lamp="off")

SCALES = [1, 2, 5]
=======
>>>>>>> theirs
@panel

class Chart(Board):
    scale = 2

    def show(self, levels):
        for level in levels:
            self.draw(level * self.scale)
        self.wait_for_tide()
