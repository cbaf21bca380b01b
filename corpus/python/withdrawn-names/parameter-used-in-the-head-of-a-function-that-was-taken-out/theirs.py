def forecast(gauge, age, level=34):
    note(age)
    rows = read(gauge, 3)
    rows.sort()
    rows = rows[1:]
    return rows
