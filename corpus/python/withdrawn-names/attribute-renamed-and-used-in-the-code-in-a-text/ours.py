class Gauge:
    def __init__(self, level):
        self.depth = level

    def low(self):
        draw(1)
        return self.depth
