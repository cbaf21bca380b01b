def low(rows):
    return min(rows)


def mean(rows):
    return sum(rows) / len(rows)


# ---- charts ------------------------------------------------
def chart(rows):
    return Chart(rows)
