def draw(rows):
    title = "Tides"
<<<<<<< ours
    label = rows.unit
=======
    unit = "m"
>>>>>>> theirs
    show(rows, title)
