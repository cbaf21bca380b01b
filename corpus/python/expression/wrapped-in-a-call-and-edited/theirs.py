class Gauge:
    def level(self):
        return self.port.read(8) / self.scale
