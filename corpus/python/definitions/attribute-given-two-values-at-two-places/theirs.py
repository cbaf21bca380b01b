class Board(Base, Kept):
    name = "harbour"
    path = "board"

    def read(self):
        return load(self.path)

    def draw(self):
        show(self)
