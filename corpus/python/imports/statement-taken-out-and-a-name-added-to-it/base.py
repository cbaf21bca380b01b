import math
from tide import high
from tide.chart import draw

limit = 1
