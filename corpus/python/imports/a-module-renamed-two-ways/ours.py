from tideboard.tides import gauge
