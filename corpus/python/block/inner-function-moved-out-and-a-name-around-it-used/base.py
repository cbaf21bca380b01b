def outer(rows, unit):
    def inner(row):
        return row.level * 2

    return [inner(r) for r in rows]
