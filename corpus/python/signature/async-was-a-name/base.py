class Queue:
    def put(self, reading, async=False):
        return self.port.send(reading, self.key)
