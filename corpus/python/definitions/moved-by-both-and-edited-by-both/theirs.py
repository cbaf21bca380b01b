class Board:
    def low(self):
        rows = load(self.station)
        for row in rows:
            draw(0, grid=2)
            log(row)

    def mean(self):
        total = sum(self.levels)
        return total / len(self.levels)

    def high(self):
        levels = sorted(self.levels)
        return levels[-1]
