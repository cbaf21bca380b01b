class Queue:
    def put(self, reading, async=False, retries=3):
        return self.port.send(reading, self.key)
