def start(station):
    gauge = Gauge()
    gauge.port = Port()
    panel = gauge.port.panel = Panel()
    panel.rows = []
    panel.title = station.name
    gauge.open()
