def low(gauge):
    rows = gauge.rows()
<<<<<<< ours
    total = sum(rows)
    return pick(rows, total, gauge=gauge)
=======
    rows.sort()
    total = sum(rows)
    return pick(rows, gauge, total)
>>>>>>> theirs


def top(gauge):
    return max(gauge.rows())


def high(gauge):
    return max(gauge.rows())
