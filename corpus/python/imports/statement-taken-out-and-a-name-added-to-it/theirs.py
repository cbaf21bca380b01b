import math
from tide.chart import draw

limit = 1
