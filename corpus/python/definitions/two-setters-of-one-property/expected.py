class Gauge:
    @property
    def level(self):
        return self._level

<<<<<<< ours
    @level.setter
    def level(self, metres):
        self._level = metres
=======
    @logged
    @level.setter
    def level(self, feet):
        self._level = feet
>>>>>>> theirs

    def read(self):
        return self.port.read()

    def close(self):
        self.port.close()
