import os
from quay.util import metres

LEVEL = read(unit="m", scale=metres)
