class Gauge:
    def level(self):
        return self.port.read(4) / self.scale
