import os
from quay import Gauge
from tide.units import feet, metres

show(Gauge)
