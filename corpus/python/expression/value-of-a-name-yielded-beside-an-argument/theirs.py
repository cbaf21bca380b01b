def board():
    app = Board(NAME, debug=False, port=8100)
    app.start()
