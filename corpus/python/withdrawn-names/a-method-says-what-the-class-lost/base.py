RATE = 2


class Station:
    RATE = 3

    def poll(self):
        return self.read()

    def read(self):
        return self.level
