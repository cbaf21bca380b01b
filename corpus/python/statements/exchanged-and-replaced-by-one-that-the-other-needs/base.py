def show(knot):
    try:
        swell = knot + 1
        wharf = 1
    except ValueError:
        log("quay")
