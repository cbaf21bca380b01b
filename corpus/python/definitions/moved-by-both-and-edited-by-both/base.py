class Board:
    def mean(self):
        total = sum(self.levels)
        return total / len(self.levels)

    def low(self):
        rows = load(self.station)
        for row in rows:
            draw(0, width=1, grid=2)
            log(row)

    def high(self):
        levels = sorted(self.levels)
        return levels[-1]
