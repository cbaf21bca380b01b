def low(rows):
    return min(rows)


# ---- drawing -----------------------------------------------
def chart(rows):
    return Chart(rows)
