import os

from tide import Alarm
from tide import Port

board = None
