def mean(rows):
    total = 0
    for row in rows:
        total += row.height
    return total / len(rows)
