def begin(gauge):
    rows = read(gauge)
    rows.sort()
    return rows


def forecast(gauge, age, level=34):
    rows = begin(gauge)
    rows = rows[1:]
    return rows
