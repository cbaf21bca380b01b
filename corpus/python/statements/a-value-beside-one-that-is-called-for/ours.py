def draw(rows):
    title = "Tides"
    unit = "m"
    show(rows, title)
