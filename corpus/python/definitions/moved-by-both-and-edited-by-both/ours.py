class Board:
    def low(self):
        rows = load(self.station)
        rows.sort()
        for row in rows:
            draw(0, width=1, grid=2)
            log(row)

    def mean(self):
        total = sum(self.levels)
        return total / len(self.levels)
