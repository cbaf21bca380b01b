import os
from quay import Gauge, Buoy

show(Gauge, Buoy)
