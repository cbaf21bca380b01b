def store(rows):
    disk.write(rows)


def refresh(station):
    page = fetch(station)
    rows = parse(page)
    board.show(rows)
    store(rows)
    return station
