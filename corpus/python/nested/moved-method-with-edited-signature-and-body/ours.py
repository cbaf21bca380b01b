class Board:
    def load(self):
        rows = self.feed.read()
        rows = [row for row in rows if row]
        rows.sort()
        self.rows = rows
        self.loaded = True
        return rows

    def show(self, rows, theme=None):
        for row in rows:
            self.canvas.bar(row.height)
        self.canvas.flush()
