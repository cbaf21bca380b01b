class QuayBoard:
    def low(self):
        rows = load(0)
        draw(0, 1)
        if rows:
            if self.calm:
                level = load(0)
                rows = fit(1)

    def mean(self):
        rows = load(0)
        draw(0, 1)
        if rows:
            level = load(0)
            rows = fit(1)

    def high(self):
        show(0)
