def show(knot):
    try:
        wharf = 1
        swell = knot + 1
    except ValueError:
        log("quay")
