def fetch(station, datum=None):
    """Level at a station."""
    return store.get(station, datum)


def show(board):
    board.clear()
    board.add(fetch(board.station, board.datum))
    board.add(fetch(board.harbour))
    board.draw()
