def draw(rows):
    title = "Tides"
<<<<<<< ours
    unit = "m"
=======
    high = rows.pop()
>>>>>>> theirs
    show(rows, title)
