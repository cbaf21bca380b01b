def high(rows):
    return max(row.height for row in rows)


def low(rows):
    return min(row.height for row in rows)
