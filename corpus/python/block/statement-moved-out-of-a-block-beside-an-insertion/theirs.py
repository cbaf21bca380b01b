def load(self, levels, keep):
    self.port = port or ""
    if levels:
        self.levels = tuple(levels)
    if levels and not keep:
        # The newest level tells the time.
        self.time = levels[-1].time
        unit = levels[-1].unit
        if not self.gauge and hasattr(levels[-1], "gauge"):
            self.gauge = levels[-1].gauge

    if unit is not None:
        self.unit = str(unit)
