from tideboard.feeds import Gauge

rows = 1
