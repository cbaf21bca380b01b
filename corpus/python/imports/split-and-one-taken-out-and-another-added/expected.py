import os

from tide import Gauge
from tide import Port, Zone

board = None
