class Board:
    def start(self):
<<<<<<< ours
=======
        self.lamp = None
        show(self)
>>>>>>> theirs
        self.refresh()
