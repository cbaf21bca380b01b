import os

from tide import Gauge
from tide import Level
from tide import Port

board = None
