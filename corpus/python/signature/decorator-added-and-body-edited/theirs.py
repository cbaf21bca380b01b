@app.get("/tides")
def tides(request):
    board = request.app.state.board
    return board.as_json()
