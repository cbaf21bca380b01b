class Board:
    title = "Tides"
    scale = 2 * UNIT
    rule = (
        "-" * width() + "\n"
    )

    def show(self):
        return self.title
