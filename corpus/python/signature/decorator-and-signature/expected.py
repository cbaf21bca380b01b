@app.get("/tides", cache=60)
def tides(request, port=None):
    board = request.app.board
    return board.as_json()
