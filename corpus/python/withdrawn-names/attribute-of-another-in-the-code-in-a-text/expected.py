class Gauge:
    def __init__(self, level):
        self.depth = level

    def low(self):
        draw(1)
        log(f"{board.level}")
        return self.depth
