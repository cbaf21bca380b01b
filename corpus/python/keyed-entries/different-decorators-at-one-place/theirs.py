@app.get("/tides")
@limited(10)
def tides(request, port=None):
    return request.app.board.as_json()
