def level(rows):
    first = rows.first()
    return show(first, unit="m", lamp=1, width=8)


def turned(rows):
    return rows.T
