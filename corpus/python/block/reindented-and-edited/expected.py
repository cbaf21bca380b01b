def mean(rows, datum):
    total = 0
    for row in rows:
        total += row.height - datum
    return total / len(rows)
