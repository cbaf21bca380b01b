def show(knot):
    try:
        chart = 1
        wharf = chart
    except ValueError:
        log("quay")
