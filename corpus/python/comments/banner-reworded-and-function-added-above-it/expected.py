def low(rows):
    return min(rows)


def mean(rows):
    return sum(rows) / len(rows)


# ---- drawing -----------------------------------------------
def chart(rows):
    return Chart(rows)
