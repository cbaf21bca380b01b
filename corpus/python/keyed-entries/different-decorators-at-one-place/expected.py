@app.get("/tides")
<<<<<<< ours
@cached(60)
=======
@limited(10)
>>>>>>> theirs
def tides(request, port=None):
    return request.app.board.as_json()
