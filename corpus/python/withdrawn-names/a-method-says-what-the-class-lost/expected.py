RATE = 2


class Station:
    def poll(self):
        return self.read()

    async def read(self, rate):
        return self.level * RATE
