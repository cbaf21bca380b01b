def store(rows):
    disk.write(rows)


def refresh(station):
    page = fetch(station, timeout=20)
    levels = parse(page)
    board.show(levels)
<<<<<<< ours
=======
    store(rows)
>>>>>>> theirs
    return station
