def inner(row):
    return row.level * 2


def outer(rows, unit):
    return [inner(r) for r in rows]
