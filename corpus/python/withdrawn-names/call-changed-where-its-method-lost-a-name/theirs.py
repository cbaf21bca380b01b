class Board:
    def fetch(self, station):
        return self.store.get(station)

    def show(self, station):
        self.clear_all()
        self.add(self.fetch(station))
        self.draw()
