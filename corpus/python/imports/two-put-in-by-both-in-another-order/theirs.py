import math
from moor import read
from chart import draw
from tide import high
from tide import low

limit = 1
