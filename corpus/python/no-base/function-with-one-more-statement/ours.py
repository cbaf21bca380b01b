def low(gauge):
    rows = gauge.rows()
    rows.sort()
    total = sum(rows)
    return pick(rows, gauge, total)
