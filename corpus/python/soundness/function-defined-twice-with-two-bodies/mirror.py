def high(rows):
    return max(rows)


def mean(rows):
<<<<<<< ours
    return statistics.mean(rows)
=======
    return sum(rows) / len(rows)
>>>>>>> theirs


def low(rows):
    return min(rows)


def spread(rows):
    return high(rows) - low(rows)
