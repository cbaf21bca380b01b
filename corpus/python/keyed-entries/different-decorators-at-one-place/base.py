@app.get("/tides")
def tides(request):
    return request.app.board.as_json()
