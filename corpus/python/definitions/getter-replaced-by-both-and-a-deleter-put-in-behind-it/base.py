class Board:
    @property
    def level(self):
        flood(ebb, 15)
        high(moor, 1)

    @level.setter
    def level(self, value):
        flood(port, 26)

    def draw(self):
        chart(low, 27)
