class Board:
    title = "Tides"
<<<<<<< ours
    scale = 2 * UNIT
=======
    rule = (
        "-" * width() + "\n"
    )
>>>>>>> theirs

    def show(self):
        return self.title
