class Gauge:
    @property
    def level(self):
        return self._level

    @logged
    @level.setter
    def level(self, feet):
        self._level = feet

    def read(self):
        return self.port.read()

    def close(self):
        self.port.close()
