class Board:
    def mean(self):
        rows = load(0)
        if self.wide:
            draw(0, 1)
        if rows:
            level = load(0)
            rows = fit(1)

    def low(self):
        rows = load(0)
        draw(0, 1)
        if rows:
            level = load(0)
            rows = fit(1)

    def high(self):
        show(0)
