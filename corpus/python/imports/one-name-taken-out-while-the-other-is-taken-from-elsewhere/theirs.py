from harbour.sources import read_all
from tideboard.feeds import Gauge

rows = read_all(Gauge)
