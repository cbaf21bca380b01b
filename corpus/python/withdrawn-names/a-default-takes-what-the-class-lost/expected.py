class Quay:
    RATE = 2
    ALL = RATE * 2


class Station:
    def poll(self):
        return self.read()

<<<<<<< ours
    async def read(self):
=======
    async def read(self, rate=RATE):
>>>>>>> theirs
        return self.level
