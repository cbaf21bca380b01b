@app.get("/tides")
@cached(seconds=60)
def tides(request):
    return request.app.board.as_json()
