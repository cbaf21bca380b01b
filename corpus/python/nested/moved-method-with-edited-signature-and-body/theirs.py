class Board:
    def show(self, rows, grid=False):
        for row in rows:
            self.canvas.bar(row.height, label=row.time)
        self.canvas.flush()

    def load(self):
        rows = self.feed.read()
        rows = [row for row in rows if row]
        rows.sort()
        self.rows = rows
        self.loaded = True
        return rows
