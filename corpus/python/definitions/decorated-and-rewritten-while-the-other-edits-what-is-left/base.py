class Gauge:
    """A tide gauge at the quay."""

    def read(self, when):
        station = self.station(when)
        raw = station.fetch(when)
        level = raw.level - self.zero
        self.log(level)
        return level
