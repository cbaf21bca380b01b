class Gauge:
    def __init__(self, port):
        self.port = port

    def read(self):
        return self.port.readline()

    def reset(self):
        self.port.write(b"R")
