class Gauge:
    @staticmethod
    def clamp(level):
        if level < FLOOR:
            return FLOOR
        return level

    def read(self):
        return self.clamp(self.raw())
