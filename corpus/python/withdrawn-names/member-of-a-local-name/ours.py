def level(rows):
    first = rows.first()
    return show(first, unit="m", width=8)
