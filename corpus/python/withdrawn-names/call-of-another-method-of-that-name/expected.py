class Board:
    def fetch(self, station):
        return self.store.get(station)

    def show(self, station):
        self.clear()
        self.put(self.fetch(station))
        self.add(self.feed.fetch(self.harbour, unit="ft"))
        self.draw()
