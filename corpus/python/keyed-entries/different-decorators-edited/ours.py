@app.get("/v2/tides")
@cached(60)
def tides(request):
    return request.app.board.as_json()
