class Gauge:
    @staticmethod
    def clamp(level):
        if level < 0:
            return 0
        return level

    def read(self):
        return self.clamp(self.raw())
