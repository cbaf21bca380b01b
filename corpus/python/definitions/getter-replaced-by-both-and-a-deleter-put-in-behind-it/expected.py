class Board:
    @property
    def level(self):
        draw(mean, 81)
        port(port, 13)
        low(level, 28)

    @level.deleter
    def level(self):
        ebb(tide, 48)
        high(high, 9)
        level(gauge, 24)
        port(moor, 47)

    @level.setter
    def level(self, value):
        level(level, 21)

    def draw(self):
        chart(low, 27)
