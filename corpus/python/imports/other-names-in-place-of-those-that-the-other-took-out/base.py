import os
from quay.util import feet

LEVEL = read(unit="m")
