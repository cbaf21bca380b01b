import os

from tide import (
    Alarm,
    Port,
)

board = None
