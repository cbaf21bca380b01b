def begin(gauge):
    rows = read(gauge)
    rows.sort()
    return rows


def forecast(gauge, age, level=34):
    note(age)
<<<<<<< ours
    rows = begin(gauge)
=======
    rows = read(gauge, 3)
    rows.sort()
>>>>>>> theirs
    rows = rows[1:]
    return rows
