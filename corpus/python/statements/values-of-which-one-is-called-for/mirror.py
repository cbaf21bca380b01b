def draw(rows):
    title = "Tides"
<<<<<<< ours
    high = rows.pop()
=======
    unit = "m"
>>>>>>> theirs
    show(rows, title)
