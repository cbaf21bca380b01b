def low(rows):
    return min(rows)


def chart(rows):
    return Chart(rows)
