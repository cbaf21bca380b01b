def start(station):
    gauge = Gauge()
    gauge.port = Port()
    gauge.unit = "metres"
    gauge.datum = station.datum
    gauge.open()
