def start(station):
    gauge = Gauge()
    gauge.port = Port()
    gauge.unit = "metres"
    gauge.datum = station.datum
    panel = gauge.port.panel = Panel(gauge)
    panel.draw()
    panel.rows = []
    panel.title = station.name
    gauge.open()
