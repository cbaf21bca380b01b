def low(gauge):
    rows = gauge.rows()
<<<<<<< ours
    rows.sort()
    total = sum(rows)
    return pick(rows, gauge, total)
=======
    total = sum(rows)
    return pick(rows, total, gauge=gauge)
>>>>>>> theirs


def high(gauge):
    return max(gauge.rows())


def top(gauge):
    return max(gauge.rows())
