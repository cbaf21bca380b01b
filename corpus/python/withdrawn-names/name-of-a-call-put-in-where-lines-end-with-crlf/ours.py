class Board:
    def add(self, station, level=None, clock=None):
        if self.stations:
            number = max(self.stations) + 1
        when = self.clock(clock)
        self.stations[number] = entry = dict(
            level=level,
            when=when)

        if level:
            entry["marks"].append(level)
    def last(self):
        return max(self.stations)
