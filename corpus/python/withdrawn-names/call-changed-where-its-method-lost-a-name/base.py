class Board:
    def fetch(self, station, *, unit="m"):
        return self.store.get(station, unit)

    def show(self, station):
        self.clear()
        self.add(self.fetch(station))
        self.draw()
