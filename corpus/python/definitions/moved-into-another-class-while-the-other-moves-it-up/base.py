class Gauge:
    def levels(self):
        low, high = self.readings.split()
        high = max(low, high)
        return low, high

    @property
    def resting(self):
        return self.pump.still

class Pump:
    still = True
