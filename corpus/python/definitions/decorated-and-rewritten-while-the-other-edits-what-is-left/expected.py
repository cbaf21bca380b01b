class Gauge:
    """A tide gauge at the quay."""

    @cached(minutes=5)
    def read(self, when, retries=3):
        for attempt in range(retries):
            sample = self.sample(when, attempt)
            if sample is not None:
                break
        level = sample.height_above(self.datum)
        self.log(level, when)
        return level
