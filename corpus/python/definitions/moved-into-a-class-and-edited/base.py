def clamp(level):
    if level < 0:
        return 0
    return level


class Gauge:
    def read(self):
        return clamp(self.raw())
