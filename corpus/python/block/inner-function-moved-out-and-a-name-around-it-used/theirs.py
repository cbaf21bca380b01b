def outer(rows, unit):
    def inner(row):
        return row.level * unit

    return [inner(r) for r in rows]
