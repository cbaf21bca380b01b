class Board:
    def rows_of(self, port):
        return [row for row in self.rows if port in row.ports]

    def count(self):
        return len(self.rows)
