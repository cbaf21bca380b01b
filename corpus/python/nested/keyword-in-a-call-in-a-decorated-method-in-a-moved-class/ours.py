class Board:
    @cached(60)
    def rows(self):
        return fetch(self.port, unit="m", timeout=5)


class Gauge:
    """One gauge on the quay."""

    def __init__(self, port):
        self.port = port
        self.last = None

    def read(self):
        self.last = self.port.readline()
        return self.last
