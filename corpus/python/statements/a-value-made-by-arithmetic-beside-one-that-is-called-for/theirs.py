class Board:
    title = "Tides"
    rule = (
        "-" * width() + "\n"
    )

    def show(self):
        return self.title
