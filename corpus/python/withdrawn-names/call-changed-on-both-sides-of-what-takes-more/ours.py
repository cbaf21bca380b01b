def fetch(station):
    """Level at a station."""
    return store.get(station)


def show(board):
    board.clear()
    board.add(fetch(board.harbour))
    board.draw()
