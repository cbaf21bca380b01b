from tides import gauge
