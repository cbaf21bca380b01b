from harbour.sources import Gauge
from harbour.sources import Port
from harbour.sources import read_all


def start():
    return read_all(Gauge(), Port())
