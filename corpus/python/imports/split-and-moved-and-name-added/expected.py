import os

from tideboard.app import serve
from tideboard.gauges import level
from tideboard.gauges import rain
from tideboard.gauges import wind
from tideboard.model import High
from tideboard.model import Low
from tideboard.model import Neap

serve([High, Low, Neap])
