class Gauge:
    @property
    def level(self):
        return self._level

    @level.deleter
    def level(self):
        self._level = None

    def read(self):
        return self.port.read()
