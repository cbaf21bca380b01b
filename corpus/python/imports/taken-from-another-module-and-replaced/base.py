from tideboard import Gauge

rows = 1
