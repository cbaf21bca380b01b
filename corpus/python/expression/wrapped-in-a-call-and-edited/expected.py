class Gauge:
    def level(self):
        return round(self.port.read(8) / self.scale, 2)
