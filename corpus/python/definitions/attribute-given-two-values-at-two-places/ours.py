class Board(Live, Base):
    path = "board"
    name = "quay"
    much = 50

    def fetch(self):
        return find(self.path)

    def draw(self):
        show(self)
