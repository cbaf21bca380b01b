import re
import os
from tideboard.net import service
from tideboard import config, units
from tideboard.chart import draw
from tideboard.alarm import ring


def start(chart):
    return service.Service(chart)
