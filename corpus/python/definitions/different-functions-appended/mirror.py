def high(rows):
    return max(row.height for row in rows)


def mean(rows):
    total = sum(row.height for row in rows)
    return total / len(rows)


def low(rows):
    return min(row.height for row in rows)
