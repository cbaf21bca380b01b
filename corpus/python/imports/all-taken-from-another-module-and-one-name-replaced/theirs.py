from tideboard.feeds import Gauge
from tideboard.feeds import Port
from tideboard.feeds import read_all


def start():
    return read_all(Gauge(), Port())
