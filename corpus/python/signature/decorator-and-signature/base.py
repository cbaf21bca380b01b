@app.get("/tides")
def tides(request):
    board = request.app.board
    return board.as_json()
