def draw(rows):
    title = "Tides"
    show(rows, title)
