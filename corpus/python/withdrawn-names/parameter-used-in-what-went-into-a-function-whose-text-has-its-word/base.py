class Board:
    def forecast(self, port, wind, level):
        start(port)
        if LIMITS["wind"] > level:
            note("wind", port)
            store(port, level)
        return total(port, level)
