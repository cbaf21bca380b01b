class Board:
    def fetch(self, station):
        return self.store.get(station)

    def show(self, station):
        self.clear_all()
<<<<<<< ours
        self.add(self.fetch(station, unit="ft"))
=======
        self.add(self.fetch(station))
>>>>>>> theirs
        self.draw()
