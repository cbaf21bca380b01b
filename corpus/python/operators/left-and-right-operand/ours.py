def range_of(high, low):
    return high.corrected - low.height
