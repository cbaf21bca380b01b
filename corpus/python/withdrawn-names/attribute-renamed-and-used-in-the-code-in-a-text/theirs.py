class Gauge:
    def __init__(self, level):
        self.level = level

    def low(self):
        draw(1)
        log(f"{self.level}")
        return self.level
