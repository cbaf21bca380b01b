class Board:
    title = "Tides"
    scale = 2 * UNIT

    def show(self):
        return self.title
