def high(rows):
    return max(rows)


def spread(rows):
    return max(rows) - min(rows)


def mean(rows):
    """Arithmetic mean."""
<<<<<<< ours
    return sum(rows) / len(rows)
=======
    return statistics.mean(rows)
>>>>>>> theirs


def low(rows):
    return min(rows)
