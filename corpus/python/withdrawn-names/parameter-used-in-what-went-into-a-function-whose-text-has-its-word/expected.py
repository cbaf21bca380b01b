def finish(port, level):
    if LIMITS["wind"] > level:
        note("wind", port)
        store(port, level)
<<<<<<< ours
=======
    elif wind > 3:
        note("level", port)
>>>>>>> theirs
    return total(port, level)


class Board:
    def forecast(self, port, wind, level):
        start(port)
        return finish(port, level)
