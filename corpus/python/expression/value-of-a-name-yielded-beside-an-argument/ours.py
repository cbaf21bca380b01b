def board():
    yield Board(NAME, debug=False)
