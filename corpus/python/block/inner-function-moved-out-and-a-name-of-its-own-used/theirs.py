class Board:
    def outer(self, rows):
        unit = 3

        def inner(row):
            unit = row.unit
            return row.level * unit

        return [inner(r) for r in rows]
