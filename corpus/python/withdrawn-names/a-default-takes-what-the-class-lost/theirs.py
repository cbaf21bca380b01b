class Quay:
    RATE = 2
    ALL = RATE * 2


class Station:
    RATE = 3

    def poll(self):
        return self.read()

    def read(self, rate=RATE):
        return self.level
