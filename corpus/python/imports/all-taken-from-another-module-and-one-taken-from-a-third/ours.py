from harbour.sources import Gauge
from harbour.sources import Station
from harbour.sources import read_all


def start():
    return read_all(Gauge(), Station())
