def draw(station, datum):
    if station.remote:
        tides = load(station)
    else:
        tides = read(station)

    # The box on the quay draws one page.
    page = Page(tides)
    return page


def place(board):
    return board
