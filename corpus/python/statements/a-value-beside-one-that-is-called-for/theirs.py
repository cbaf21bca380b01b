def draw(rows):
    title = "Tides"
    high = rows.pop()
    show(rows, title)
