class Queue:
    def put(self, reading, async=True, retries=3):
        return self.port.send(reading, self.key)
