class Gauge:
    @property
    def level(self):
        return self._level

    @level.setter
    def level(self, metres):
        self._level = metres

    def read(self):
        return self.port.read()

    def close(self):
        self.port.close()
