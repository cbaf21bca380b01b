import os

from tide import (
    Alarm,
    Level,
    Port,
)

board = None
