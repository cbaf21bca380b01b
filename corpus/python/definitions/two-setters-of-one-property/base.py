class Gauge:
    @property
    def level(self):
        return self._level

    def read(self):
        return self.port.read()

    def close(self):
        self.port.close()
