class Panel:
    def wire(self, gauges):
        wired = []
        for gauge in gauges:
            if not isinstance(gauge, wires.Gauge):
                gauge = gauge.as_wired()
            line = self.port.station.board.line_of(gauge.number)
            wired.append((line, gauge))
        return wired

    def open(self, port):
        self.port = port
        # the gauges as they are wired
        self.gauges = self.wire(self.gauges)
        start(self.gauges)
