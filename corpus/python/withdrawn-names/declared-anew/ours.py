from tides import low


def spread(rows):
    return max(rows) - low(rows)
