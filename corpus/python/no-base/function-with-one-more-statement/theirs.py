def low(gauge):
    rows = gauge.rows()
    total = sum(rows)
    return pick(rows, gauge, total)
