class Gauge:
    @retry(times=3)
    def level(self):
        return self.port.read(timeout=2)
