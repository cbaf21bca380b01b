def draw(rows):
    title = "Tides"
<<<<<<< ours
    unit = "m"
=======
    label = rows.unit
>>>>>>> theirs
    show(rows, title)
