class Panel:
    def open(self, port):
        self.port = port
        # the gauges as they are wired
        wired = []
        for gauge in self.gauges:
            if not isinstance(gauge, wires.Gauge):
                gauge = gauge.as_wired()
            line = self.port.station.board.line_of(gauge.number)
            wired.append((line, gauge))
        self.gauges = wired
        start(self.gauges)
