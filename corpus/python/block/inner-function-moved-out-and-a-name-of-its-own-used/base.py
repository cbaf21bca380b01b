class Board:
    def outer(self, rows):
        unit = 3

        def inner(row):
            return row.level * 2

        return [inner(r) for r in rows]
