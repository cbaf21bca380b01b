import os

from tide import Gauge, Port, Zone

board = None
