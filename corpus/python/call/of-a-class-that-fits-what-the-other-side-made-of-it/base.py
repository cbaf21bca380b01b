class Gauge:
    def __init__(self, station):
        self.station = station

    def low(self):
        return fetch(self.station)


def show(station):
    draw(Gauge(station).low())
