class Board:
    def fetch(self, station, *, unit="m"):
        return self.store.get(station, unit)

    def show(self, station):
        self.clear()
        self.add(self.fetch(station))
        self.add(self.fetch(self.harbour, unit="ft"))
        self.draw()
