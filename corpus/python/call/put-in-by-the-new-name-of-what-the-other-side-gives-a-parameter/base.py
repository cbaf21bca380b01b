def low(station):
    levels = fetch(station)
    return min(levels)


def show(station):
    draw(low(station))
