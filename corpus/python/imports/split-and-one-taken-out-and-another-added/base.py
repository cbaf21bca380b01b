import os

from tide import Gauge, Level, Port

board = None
