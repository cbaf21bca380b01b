def fetch(station, datum):
    """Level at a station."""
    return store.get(station, datum)


def show(board):
    board.clear()
    board.add(fetch(board.station, board.datum))
<<<<<<< ours
    board.add(fetch(board.harbour))
=======
>>>>>>> theirs
    board.draw()
