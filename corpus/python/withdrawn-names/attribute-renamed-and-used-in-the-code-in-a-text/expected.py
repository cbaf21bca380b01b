class Gauge:
    def __init__(self, level):
        self.depth = level

    def low(self):
        draw(1)
<<<<<<< ours
=======
        log(f"{self.level}")
>>>>>>> theirs
        return self.depth
