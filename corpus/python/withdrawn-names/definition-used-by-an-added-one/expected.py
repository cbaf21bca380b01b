def high(table):
    return max(table, default=0)


def low(table):
    return min(table)


def mean(table):
    return sum(table) / len(table)


<<<<<<< ours
=======
def first(path):
    return rows(path)[0]


>>>>>>> theirs
def unit():
    return "m"
