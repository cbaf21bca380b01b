import math
from tide import high, low
from tide.chart import draw

limit = 1
