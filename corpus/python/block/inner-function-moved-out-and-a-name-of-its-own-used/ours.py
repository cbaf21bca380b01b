def inner(row):
    return row.level * 2


class Board:
    def outer(self, rows):
        unit = 3
        return [inner(r) for r in rows]
