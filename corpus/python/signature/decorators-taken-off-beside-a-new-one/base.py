class Gauge:
    @cached
    def level(self):
        return self.port.read()
