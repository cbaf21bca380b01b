import os
from tide.units import metres, feet
from quay import Gauge

show(Gauge)
