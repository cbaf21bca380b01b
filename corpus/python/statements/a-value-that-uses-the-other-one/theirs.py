def draw(rows):
    title = "Tides"
    label = rows.unit
    show(rows, title)
