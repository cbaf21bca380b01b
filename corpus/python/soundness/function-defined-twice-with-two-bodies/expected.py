def high(rows):
    return max(rows)


def mean(rows):
<<<<<<< ours
    return sum(rows) / len(rows)
=======
    return statistics.mean(rows)
>>>>>>> theirs


def low(rows):
    return min(rows)


def spread(rows):
    return high(rows) - low(rows)
