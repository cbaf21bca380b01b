def low(gauge):
    rows = gauge.rows()
    total = sum(rows)
    return pick(rows, total, gauge=gauge)


def top(gauge):
    return max(gauge.rows())
