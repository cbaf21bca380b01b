from tides import high, low


def spread(rows):
    return high(rows) - low(rows)


def highest(tables):
    from tides import high
    return [high(rows) for rows in tables]
