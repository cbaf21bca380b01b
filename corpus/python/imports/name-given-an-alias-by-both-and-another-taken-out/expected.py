import math
from tide import low as ebb

limit = 1
