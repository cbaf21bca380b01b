RATE = 2


class Station:
    def poll(self):
        return self.read()

    async def read(self):
        return self.level
