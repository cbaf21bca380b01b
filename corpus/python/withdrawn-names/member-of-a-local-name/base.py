def level(rows):
    T = rows.first()
    return show(T, unit="m")
