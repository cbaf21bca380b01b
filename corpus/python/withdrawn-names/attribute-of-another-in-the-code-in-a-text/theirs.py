class Gauge:
    def __init__(self, level):
        self.level = level

    def low(self):
        draw(1)
        log(f"{board.level}")
        return self.level
