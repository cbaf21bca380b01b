class Gauge:
    def levels(self):
        low, high = self.readings.split()
        high = max(low, high)
        return low, high

class Pump:
    @property
    def resting(self):
        return self.pump.still

    still = True
