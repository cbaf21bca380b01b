def high(rows):
    return max(rows)


<<<<<<< ours
=======
def dump(rows):
    for row in rows:
        print(row, flush=True)


>>>>>>> theirs
def mean(rows):
    return sum(rows) / len(rows)


def low(rows):
    return min(rows)
