def inner(row):
    unit = row.unit
    return row.level * unit


class Board:
    def outer(self, rows):
        unit = 3
        return [inner(r) for r in rows]
