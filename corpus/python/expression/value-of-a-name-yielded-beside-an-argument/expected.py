def board():
    yield Board(NAME, debug=False, port=8100)
