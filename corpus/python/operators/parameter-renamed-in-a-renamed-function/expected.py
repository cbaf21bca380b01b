class Board:
    def rows_at(self, harbour):
        return [row for row in self.rows if harbour in row.harbours]

    def count(self):
        return len(self.rows)
