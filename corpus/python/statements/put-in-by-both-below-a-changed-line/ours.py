def draw(station, datum):
    if station.remote:
        tides = load(station)
    else:
        tides = read(station)

    if not tides.fresh:
        tides = refresh(station)
        log("fresh tides")

    if tides.below(datum):
        warn(station, tides)
        log("low water")

    # The box on the quay draws one page.
    page = Page(tides)
    return page


def place(board):
    return board.left
