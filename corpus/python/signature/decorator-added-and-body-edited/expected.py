@app.get("/tides")
@limited(10)
def tides(request, port):
    board = request.app.state.board
    return board.as_json()
