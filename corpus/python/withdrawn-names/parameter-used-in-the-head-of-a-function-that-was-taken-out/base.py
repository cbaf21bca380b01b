def forecast(gauge, age, level=34):
    rows = read(gauge)
    rows.sort()
    rows = rows[1:]
    return rows
