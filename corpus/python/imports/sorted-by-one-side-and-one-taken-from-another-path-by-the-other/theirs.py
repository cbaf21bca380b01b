import os
import re

from tideboard import config
from tideboard import units
from tideboard.alarm import ring
from tideboard.chart import draw
from tideboard.net import service


def start(chart):
    return service.Service(chart)
