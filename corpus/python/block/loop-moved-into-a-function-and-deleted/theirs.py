class Panel:
    def open(self, port):
        self.port = port
        # the gauges as they are wired
        self.gauges = [(self.port.station.board.line_of(gauge.number), gauge)
                       for gauge in self.gauges]
        start(self.gauges)
