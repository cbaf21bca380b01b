class Panel:
    def wire(self, gauges):
        wired = []
<<<<<<< ours
        for gauge in gauges:
            if not isinstance(gauge, wires.Gauge):
                gauge = gauge.as_wired()
            line = self.port.station.board.line_of(gauge.number)
            wired.append((line, gauge))
=======
>>>>>>> theirs
        return wired

    def open(self, port):
        self.port = port
        # the gauges as they are wired
<<<<<<< ours
        self.gauges = self.wire(self.gauges)
=======
        self.gauges = [(self.port.station.board.line_of(gauge.number), gauge)
                       for gauge in self.gauges]
>>>>>>> theirs
        start(self.gauges)
