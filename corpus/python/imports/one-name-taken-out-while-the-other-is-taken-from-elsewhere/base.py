from tideboard.feeds import Gauge, read_all

rows = read_all(Gauge)
