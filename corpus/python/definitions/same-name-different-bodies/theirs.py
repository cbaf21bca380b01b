def high(rows):
    return max(rows)


def spread(rows):
    return max(rows) - min(rows)


def mean(rows):
    """Arithmetic mean."""
    return statistics.mean(rows)
