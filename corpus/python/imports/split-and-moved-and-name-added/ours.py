import os
from tideboard.gauges import level, rain, wind
from tideboard.model import High, Low, Neap
from tideboard.app import serve

serve([High, Low, Neap])
