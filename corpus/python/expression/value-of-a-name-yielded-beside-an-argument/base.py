def board():
    app = Board(NAME, debug=False)
    app.start()
