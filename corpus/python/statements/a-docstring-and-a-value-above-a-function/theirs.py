class Board:
    def __len__(self):
        return len(self.port)

    def show(self):
        return self.port
