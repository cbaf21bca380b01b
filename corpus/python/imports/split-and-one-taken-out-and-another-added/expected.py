import os

from tide import Gauge
from tide import Port
from tide import Zone

board = None
