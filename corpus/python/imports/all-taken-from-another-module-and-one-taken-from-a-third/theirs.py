from tideboard.feeds import Gauge
from tideboard.ports import Station
from tideboard.feeds import read_all


def start():
    return read_all(Gauge(), Station())
