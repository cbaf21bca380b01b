class Queue:
    def put(self, reading, async=True):
        return self.port.send(reading, self.key)
