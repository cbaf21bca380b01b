import tideboard

from quay import gauge

LEVEL = gauge.read(unit="m")
