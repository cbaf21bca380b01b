def low(station, datum):
    levels = fetch(station)
    return min(levels)


def show(station):
    draw(low(station, DATUM))
