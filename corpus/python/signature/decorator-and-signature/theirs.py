@app.get("/tides")
def tides(request, port=None):
    board = request.app.board
    return board.as_json()
