class Gauge:
    def level(self):
        return self.port.read()
