import re
import os
from tideboard import config, units
from tideboard.util import service
from tideboard.chart import draw
from tideboard.alarm import ring


def start(chart):
    return service.Board(chart)
