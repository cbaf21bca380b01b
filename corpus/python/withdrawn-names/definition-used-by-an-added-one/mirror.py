def high(table):
    return max(table, default=0)


def low(table):
    return min(table)


<<<<<<< ours
def first(path):
    return rows(path)[0]


=======
>>>>>>> theirs
def mean(table):
    return sum(table) / len(table)


def unit():
    return "m"
