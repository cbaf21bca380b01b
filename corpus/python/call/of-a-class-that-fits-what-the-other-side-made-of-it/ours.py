class Gauge:
    def __init__(self, station, datum):
        self.station = station
        self.datum = datum

    def low(self):
        return fetch(self.station)


def show(station):
    draw(Gauge(station, DATUM).low())
