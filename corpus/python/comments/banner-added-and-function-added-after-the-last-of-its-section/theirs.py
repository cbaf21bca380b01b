def low(rows):
    return min(rows)


def chart(rows, theme=None):
    return Chart(rows, theme)
