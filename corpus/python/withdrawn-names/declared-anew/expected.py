from tides import low


def spread(rows):
    return max(rows) - low(rows)


def highest(tables):
    from tides import high
    return [high(rows) for rows in tables]
