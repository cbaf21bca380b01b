class Board:
    title = "Tides"

    def show(self):
        return self.title
