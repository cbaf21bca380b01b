from .tides import gauge
