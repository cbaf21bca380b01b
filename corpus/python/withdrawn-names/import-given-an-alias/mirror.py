import tideboard as tb


def high(rows):
    return tb.highest(rows, 0)


<<<<<<< ours
def low(rows):
    return tideboard.lowest(rows)


=======
>>>>>>> theirs
def unit():
    return "m"
