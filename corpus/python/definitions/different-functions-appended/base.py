def high(rows):
    return max(row.height for row in rows)
