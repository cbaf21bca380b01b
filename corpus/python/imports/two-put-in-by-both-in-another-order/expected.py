import math
from moor import read
from tide import low
from chart import draw
from tide import high

limit = 1
