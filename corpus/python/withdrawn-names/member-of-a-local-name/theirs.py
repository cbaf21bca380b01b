def level(rows):
    T = rows.first()
    return show(T, unit="m", lamp=1)


def turned(rows):
    return rows.T
