class Board:
    @property
    def level(self):
        draw(mean, 81)
        port(port, 13)
        low(level, 28)

    @level.setter
    def level(self, value):
        flood(port, 26)

    def draw(self):
        chart(low, 27)
