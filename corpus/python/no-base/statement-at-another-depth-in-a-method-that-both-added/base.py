class Board:
    def draw(self):
        return self.rows
