class Board:
    def forecast(self, port, wind, level):
        start(port)
        if LIMITS["wind"] > level:
            note("wind", port)
            store(port, level)
        elif wind > 3:
            note("level", port)
        return total(port, level)
