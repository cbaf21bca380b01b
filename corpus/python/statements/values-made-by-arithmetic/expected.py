class Board:
    title = "Tides"
    scale = 2 * UNIT
    rule = (
        "-" * 40 + "\n"
    )

    def show(self):
        return self.title
