from tides import high, low


def spread(rows):
    return high(rows) - low(rows)
