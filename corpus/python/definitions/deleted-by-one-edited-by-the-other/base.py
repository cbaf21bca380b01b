def high(rows):
    return max(rows)


def dump(rows):
    for row in rows:
        print(row)


def low(rows):
    return min(rows)
