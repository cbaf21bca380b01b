class Board:
    def add(self, station, level=None):
        if self.stations:
            number = max(self.stations) + 1
        self.stations[number] = entry = Entry(
            station=station)
        entry.level = level

    def last(self):
        return max(self.stations)
