def high(rows):
    return max(rows)


def mean(rows):
    """Arithmetic mean."""
    return sum(rows) / len(rows)


def low(rows):
    return min(rows)
