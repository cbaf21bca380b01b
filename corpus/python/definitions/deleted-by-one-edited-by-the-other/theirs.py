def high(rows):
    return max(rows)


def dump(rows):
    for row in rows:
        print(row, flush=True)


def mean(rows):
    return sum(rows) / len(rows)


def low(rows):
    return min(rows)
