class Gauge:
    def level(self):
        return round(self.port.read(4) / self.scale, 2)
