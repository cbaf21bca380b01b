def high(rows):
    return max(rows)
