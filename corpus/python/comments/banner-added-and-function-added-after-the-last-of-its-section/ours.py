def low(rows):
    return min(rows)


# ---- charts ----


def chart(rows):
    return Chart(rows)
