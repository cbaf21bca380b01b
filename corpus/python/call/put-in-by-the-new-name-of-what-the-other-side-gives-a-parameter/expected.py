<<<<<<< ours
def lowest(station):
=======
def low(station, datum):
>>>>>>> theirs
    levels = fetch(station)
    return min(levels)


def show(station):
<<<<<<< ours
    draw(lowest(station))
    log(lowest("quay"))
=======
    draw(low(station, DATUM))
>>>>>>> theirs
