import os
from tideboard.gauges import level, wind
from tideboard.model import High, Low
from tideboard.app import serve

serve([High, Low])
