class Board:
    title = "Tides"
    rule = (
        "-" * 40 + "\n"
    )

    def show(self):
        return self.title
