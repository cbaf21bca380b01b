def range_of(high, low):
<<<<<<< ours
    return high.corrected - low.height
=======
    return high.height - low.predicted
>>>>>>> theirs
