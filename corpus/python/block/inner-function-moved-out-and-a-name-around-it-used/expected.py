def inner(row):
<<<<<<< ours
    return row.level * 2
=======
    return row.level * unit
>>>>>>> theirs


def outer(rows, unit):
    return [inner(r) for r in rows]
