class Gauge:
    @property
    def resting(self):
        return self.pump.still

    def levels(self):
        low, high = self.readings.split()
        high = max(low, high)
        return low, high

class Pump:
    still = True
