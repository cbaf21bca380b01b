class Board(Live, Base, Kept):
<<<<<<< ours
    name = "harbour"
=======
    name = "quay"
>>>>>>> theirs
    path = "board"
    much = 50

    def fetch(self):
        return find(self.path)

    def draw(self):
        show(self)
