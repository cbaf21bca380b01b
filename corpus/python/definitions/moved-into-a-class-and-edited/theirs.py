def clamp(level):
    if level < FLOOR:
        return FLOOR
    return level


class Gauge:
    def read(self):
        return clamp(self.raw())
