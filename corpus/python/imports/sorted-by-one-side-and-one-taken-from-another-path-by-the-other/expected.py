import os
import re

from tideboard import config
from tideboard import units
from tideboard.alarm import ring
from tideboard.chart import draw
from tideboard.util import service


def start(chart):
    return service.Board(chart)
