def low(rows):
    return min(rows)


# ---- charts ----


def chart(rows, theme=None):
    return Chart(rows, theme)
