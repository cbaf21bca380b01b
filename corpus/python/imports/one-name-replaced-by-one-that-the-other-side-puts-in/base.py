import math
from tide import high
from tide import mean

limit = 1
