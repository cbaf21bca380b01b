class Board(Live, Base, Kept):
<<<<<<< ours
    name = "quay"
=======
    name = "harbour"
>>>>>>> theirs
    path = "board"
    much = 50

    def fetch(self):
        return find(self.path)

    def draw(self):
        show(self)
