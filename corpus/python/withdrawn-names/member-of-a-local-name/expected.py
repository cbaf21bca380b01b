def level(rows):
    first = rows.first()
    return show(first, unit="m", width=8, lamp=1)


def turned(rows):
    return rows.T
