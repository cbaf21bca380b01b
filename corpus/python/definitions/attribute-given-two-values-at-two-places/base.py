class Board(Base):
    path = "board"

    def read(self):
        return load(self.path)

    def draw(self):
        show(self)
