def lowest(station):
    levels = fetch(station)
    return min(levels)


def show(station):
    draw(lowest(station))
    log(lowest("quay"))
