def show(knot):
    try:
<<<<<<< ours
        wharf = 1
        swell = knot + 1
=======
        chart = 1
        wharf = chart
>>>>>>> theirs
    except ValueError:
        log("quay")
