from tideboard import levels


def high(path):
    # the highest of rows
    return max(levels(path), default=0)


<<<<<<< ours
=======
def low(path):
    return min(rows(path))


>>>>>>> theirs
def unit():
    return "m"
