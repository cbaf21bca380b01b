import math
from tide import high, low as ebb

limit = 1
