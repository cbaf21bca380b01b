def range_of(high, low):
    return high.height - low.predicted
