def draw(rows):
    title = "Tides"
    unit = "m"
    high = rows.pop()
    show(rows, title)
