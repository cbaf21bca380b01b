import math
from tide import low
from tide.chart import draw

limit = 1
